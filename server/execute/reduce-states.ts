/** Keeping few states: equal ones are one; above the bound the nearest are merged. Law: merged, never dropped. */
import type { Run } from "./run.js";
import { absorb, JOIN, type State, sameForPins } from "./state.js";

/** States that differ in nothing that could decide what pins do become one; at most `limits.states` are left. */
export function reduceStates(run: Run, states: State[], start: number): State[] {
  if (states.length <= 1) return states;
  const kept: State[] = [];
  for (const state of states) {
    const twin = kept.find((candidate) => sameForPins(candidate, state, run.variables));
    if (twin === undefined) kept.push(state);
    else absorb(twin, state, JOIN, run.variables);
  }
  if (kept.length <= run.limits.states) return kept;
  run.gap("more different states than are kept apart; the nearest were merged", start, start);
  return mergeByHardware(run, kept);
}

/** One state per way in which the timers run; at most the bound. */
export function mergeByHardware(run: Run, states: readonly State[]): State[] {
  const groups: State[] = [];
  for (const state of states) {
    const like = groups.find((candidate) => candidate.machine.runsLike(state.machine));
    if (like !== undefined) absorb(like, state, JOIN, run.variables);
    else groups.push(state);
  }
  while (groups.length > run.limits.states) {
    const last = groups.pop()!;
    absorb(groups[groups.length - 1]!, last, JOIN, run.variables);
  }
  return groups;
}
