/** The register code of a plan as a sketch would carry it, for a chip that the core's init has just left. */
import type { Target } from "../../shared-model/chip.js";
import { pinLabel } from "../../shared-model/plans/pin-label.js";
import type { Plan, PlannedOutput } from "../../shared-model/plans/plan.js";
import { showShare } from "../../shared-model/show-numbers.js";
import { UNDERSCORE_BV } from "../look/naming.js";
import { timerCode } from "../plans/timer-code.js";

/** Statements for the end of `setup`, one a line. The duty to begin with is the middle of what is wanted. */
export function planCode(target: Target, plan: Plan): string[] {
  const units = plan.outputs.map((output) => ({
    unit: output.unit,
    com: output.com,
    value: middle(output.compareValues),
    mayBeHigh: false,
  }));
  const lines = timerCode({
    chip: target.chip,
    setting: plan.setting,
    units,
    keepsCapture: false,
    guard: null,
    style: UNDERSCORE_BV,
    remark: null,
  });
  return [...lines, ...plan.outputs.map((output) => direction(target, output))];
}

/** What the compare register may be set to from then on. */
export function dutyWords(target: Target, plan: Plan): string[] {
  return plan.outputs.flatMap((output) => {
    if (output.com === 1) return [];
    const { min, max } = output.compareValues;
    const range = min === max ? `${min}` : `${min}..${max}`;
    const ends = [min, max].map((value) => dutyAt(output, plan.setting.top, value));
    const duty =
      min === max ? showShare(ends[0]!) : `${showShare(ends[0]!).replace(/ %$/, "")}..${showShare(ends[1]!)}`;
    return [`${output.compare} = ${range} gives ${duty} on ${pinLabel(target, output.port)}`];
  });
}

function dutyAt(output: PlannedOutput, top: number, value: number): number {
  const { min, max } = output.duty;
  const least = min.num / min.den;
  const most = max.num / max.den;
  const share = value / top;
  return output.com === 3 ? most - share * (most - least) : least + share * (most - least);
}

function middle({ min, max }: { readonly min: number; readonly max: number }): number {
  return Math.round((min + max) / 2);
}

function direction(target: Target, output: PlannedOutput): string {
  const pin = target.board === null ? undefined : target.pins.find((candidate) => candidate.port === output.port);
  if (pin !== undefined) return `pinMode(${pin.analog ?? pin.number}, OUTPUT);`;
  const port = target.chip.ports.find((candidate) => candidate.letter === output.port[1]);
  return `${port?.direction ?? `DDR${output.port[1]}`} |= _BV(${output.port[2]});`;
}
