/** Keeping few states: equal ones are one; above a bound the nearest are merged. Law: merged, never dropped. */
import type { Variable } from "../program/ir.js";
import type { AbstractInteger } from "./domain/number.js";
import { Aggregate } from "./memory.js";
import type { Run } from "./run.js";
import { absorb, JOIN, type State, sameCores } from "./state.js";
import type { Value } from "./value.js";

/** As many states are kept apart although only duty values tell them apart. */
const FEW_STATES = 3;
/** Times the number of states kept apart, beyond which they are merged by what their timers do alone. */
const MANY = 4;
/** Values that a variable has at most where states are worth being told apart by it. */
const FEW_VALUES = 4;

/** States that go on alike become one; at most `limits.states` are left. */
export function reduceStates(run: Run, states: State[], start: number): State[] {
  if (states.length <= 1) return states;
  // So many will not be kept apart anyway: looking for twins among them would only take time.
  let kept =
    states.length > MANY * run.limits.states
      ? states
      : merge(
          run,
          states,
          (a, b) => a.machine.equals(b.machine) && sameCores(a.core, b.core) && !goDifferentWays(a, b, run.variables),
        );
  // What a path has in its variables comes apart again where it is asked for; what its timers do would not.
  if (kept.length > FEW_STATES)
    kept = merge(run, kept, (a, b) => a.machine.runsLike(b.machine) && sameCores(a.core, b.core) && !run.apart(a, b));
  if (kept.length <= run.limits.states) return kept;
  return atMost(run, mergeByHardware(run, kept), kept.length, start);
}

function atMost(run: Run, merged: State[], before: number, start: number): State[] {
  if (merged.length < before)
    run.gap("more different states than are kept apart; the nearest were merged", start, start);
  return merged;
}

function merge(run: Run, states: readonly State[], like: (a: State, b: State) => boolean): State[] {
  const kept: State[] = [];
  for (const state of states) {
    const twin = kept.find((candidate) => like(candidate, state));
    if (twin === undefined) kept.push(state);
    else absorb(twin, state, JOIN, run.variables);
  }
  return kept;
}

/** True where a variable that decides modes or ways has one small set of values here and another there. */
function goDifferentWays(a: State, b: State, variables: ReadonlyMap<number, Variable>): boolean {
  return !a.memory.differences(b.memory, (object, left, right) => {
    if (left === undefined || right === undefined) return true;
    if (variables.get(Math.floor(object / 256))?.steers === false) return true;
    if (left instanceof Aggregate || right instanceof Aggregate) {
      return !(left instanceof Aggregate && right instanceof Aggregate && cellsDiffer(left, right));
    }
    return !tellApart(left, right);
  });
}

function cellsDiffer(a: Aggregate, b: Aggregate): boolean {
  if (a.cells.size > 32) return false;
  for (const [offset, cell] of a.cells) {
    const other = b.cells.get(offset);
    if (other !== undefined && other.value !== cell.value && tellApart(cell.value, other.value)) return true;
  }
  return false;
}

function tellApart(a: Value, b: Value): boolean {
  if ("zeros" in a && "zeros" in b)
    return isFew(a) && isFew(b) && !a.values!.some((value) => b.values!.includes(value));
  if ("targets" in a && "targets" in b)
    return a.targets !== null && b.targets !== null && a.targets.length <= 1 && b.targets.length <= 1;
  return false;
}

function isFew(value: AbstractInteger): boolean {
  return value.values !== null && value.values.length <= FEW_VALUES;
}

/** One state per way in which the timers run; at most the bound. */
export function mergeByHardware(run: Run, states: readonly State[]): State[] {
  const groups: State[] = [];
  for (const state of states) {
    const like = groups.find((candidate) => candidate.machine.runsLike(state.machine) && !run.apart(candidate, state));
    if (like !== undefined) absorb(like, state, JOIN, run.variables);
    else groups.push(state);
  }
  while (groups.length > run.limits.states) {
    const last = groups.pop()!;
    absorb(groups[groups.length - 1]!, last, JOIN, run.variables);
  }
  return groups;
}
