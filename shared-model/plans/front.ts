/**
 * The Pareto front of candidates. A plan dominates another when
 * - its verdict is as good or better (`yes` before `marginal`; what does not meet the want is no plan),
 * - its error, the greatest of its outputs' without sign, is as small or smaller,
 * - it has as many steps (the fewest of its outputs') or more,
 * - its costs are among the other's costs, compared by kind, pin and whether they hurt,
 * and at least one of these is better. Of plans that are equal in all four one stands for all: the plainer mode, then the
 * finer prescaler. Where no frequency is wanted, all errors are 0.
 */
import type { FrontStretch } from "./plan.js";
import { type Candidates, stepsAt } from "./search.js";
import { topRegisterOf } from "./ways.js";

/** The candidates with what others dominate taken out; stairs may become empty, and then go. */
export function frontOf(everything: readonly Candidates[]): Candidates[] {
  const all = withoutTwins(everything);
  return all.flatMap((own, at) => {
    let { tops, errors } = own.stairs;
    for (const [otherAt, other] of all.entries()) {
      if (tops.length === 0) break;
      if (otherAt === at || other.grade < own.grade || (other.mask & ~own.mask) !== 0) continue;
      const better = other.grade > own.grade || other.mask !== own.mask || otherAt < at;
      const kept = undominated({ ...own, stairs: { tops, errors } }, other, better);
      if (kept !== null) {
        tops = kept.map((index) => tops[index]!);
        errors = kept.map((index) => errors[index]!);
      }
    }
    return tops.length === 0 ? [] : [{ ...own, stairs: { tops, errors } }];
  });
}

/** The same lane at the same costs or more is dominated whole: most of what there is goes by this alone. */
function withoutTwins(all: readonly Candidates[]): Candidates[] {
  const byStairs = new Map<unknown, Candidates[]>();
  const left: Candidates[] = [];
  for (const each of all) {
    const twins = byStairs.get(each.stairs) ?? [];
    if (twins.some((twin) => twin.grade === each.grade && (twin.mask & ~each.mask) === 0)) continue;
    byStairs.set(each.stairs, [...twins, each]);
    left.push(each);
  }
  return left;
}

/**
 * Which places of `own` no plan of `other` dominates; null for all. `better`: equal error and steps are enough. Both stairs
 * run from the most steps down with falling errors, so one walk along both does it.
 */
function undominated(own: Candidates, other: Candidates, better: boolean): number[] | null {
  const mine = own.stairs;
  const theirs = other.stairs;
  const last = mine.tops.length - 1;
  // Out of reach: their most steps are fewer than my fewest, or their least error is greater than my greatest.
  if (stepsAt(other.counting, theirs.tops[0]!) < stepsAt(own.counting, mine.tops[last]!)) return null;
  if (theirs.errors[theirs.errors.length - 1]! > mine.errors[0]!) return null;
  const kept: number[] = [];
  let next = 0;
  for (let index = 0; index <= last; index++) {
    const steps = stepsAt(own.counting, mine.tops[index]!);
    while (next < theirs.tops.length && stepsAt(other.counting, theirs.tops[next]!) >= steps) next++;
    // The one with the least error among those of as many steps.
    const rival = next - 1;
    const error = mine.errors[index]!;
    const rivalError = rival < 0 ? Number.POSITIVE_INFINITY : theirs.errors[rival]!;
    const equal = rivalError === error && stepsAt(other.counting, theirs.tops[rival]!) === steps;
    if (!(rivalError < error || (rivalError === error && (!equal || better)))) kept.push(index);
  }
  return kept.length === mine.tops.length ? null : kept;
}

/** The front as data: runs of TOPs. */
export function stretchesOf(front: readonly Candidates[]): FrontStretch[] {
  return front.flatMap((candidates) => {
    const { counting, costs, grade, stairs } = candidates;
    const { timer, mode, clock, prescaler, outputs } = counting;
    const runs: { min: number; max: number }[] = [];
    for (const top of stairs.tops) {
      const run = runs[runs.length - 1];
      if (run !== undefined && run.min === top + 1) run.min = top;
      else runs.push({ min: top, max: top });
    }
    return runs.map(
      (tops): FrontStretch => ({
        setting: { timer: timer.number, mode: mode.select, clock, prescaler, topRegister: topRegisterOf(timer, mode) },
        tops,
        coms: outputs.map(({ way }) => way.com),
        verdict: grade === 2 ? "yes" : "marginal",
        costs: costs.map(({ kind, port, hurts }) => ({ kind, port, hurts })),
      }),
    );
  });
}
