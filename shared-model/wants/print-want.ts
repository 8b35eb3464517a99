/** A want in its plainest spelling, such that reading it again gives the same want. */
import { findSpecification, type Specification, specifications } from "../specifications.js";
import type { Range, WantComment, WantedFrequency, WantedSignal } from "./comment.js";

/** The whole line without its comment's mark: `wants D9 and D10: 25000 Hz within 21000..28000 Hz, 100 steps`. */
export function printWant(want: WantComment, known: readonly Specification[] = specifications): string {
  const remark = want.remark === undefined ? "" : ` (${want.remark})`;
  return `wants ${want.together.join(" and ")}: ${printDemands(want, want.specification, known)}${remark}`;
}

/** What stands behind the pin. What the named specification says anyway is left out. */
export function printDemands(
  want: WantedSignal,
  specificationId?: string,
  known: readonly Specification[] = specifications,
): string {
  const named = specificationId === undefined ? undefined : findSpecification(specificationId, known);
  const items: string[] = [];
  const { frequency, duty, reach, pulse, steps, idle, filter } = want;
  if (named !== undefined) {
    const given =
      filter === undefined || (filter.ohms === named.filter?.ohms && filter.farads === named.filter.farads)
        ? ""
        : ` with R = ${filter.ohms} Ohm, C = ${printFarads(filter.farads)}`;
    items.push(`${named.id}${given}`);
  }
  if (frequency !== undefined && !(sameRange(frequency, named?.frequency) && frequency.hz === named?.frequency?.hz)) {
    items.push(printFrequency(frequency));
  }
  if (duty !== undefined && !sameRange(duty, named?.duty)) items.push(`duty ${printShares(duty)}`);
  if (reach !== undefined && !sameRange(reach, named?.reach)) items.push(`reach ${printShares(reach)}`);
  if (pulse !== undefined && !sameRange(pulse, named?.pulse)) items.push(`pulse ${pulse.min}..${pulse.max} s`);
  if (steps !== undefined && steps.steps !== named?.steps) items.push(`${steps.steps} steps`);
  if (idle !== undefined && idle.level !== named?.idle) items.push(`idle ${idle.level}`);
  return items.join(", ");
}

function printFrequency({ hz, min, max }: WantedFrequency): string {
  return max === Number.POSITIVE_INFINITY ? `${min} Hz or more` : `${hz} Hz within ${min}..${max} Hz`;
}

/** Percent, with the noise of the binary digits cut off as the reader cuts it. */
function printShares({ min, max }: Range): string {
  const percent = (share: number) => Number((share * 100).toPrecision(13));
  return `${percent(min)}..${percent(max)} %`;
}

/** Small numbers in their own unit, so that nothing needs an exponent below what is read. */
function printFarads(farads: number): string {
  return `${Number((farads * 1e12).toPrecision(13))} pF`;
}

function sameRange(left: Range, right: Range | undefined): boolean {
  return right !== undefined && left.min === right.min && left.max === right.max;
}
