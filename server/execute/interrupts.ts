/**
 * Interrupt routines, let in wherever time passes. Law: after a settled point the states stand for every way in which the
 * routines that may run have run there, any number of times, in any order.
 */
import type { FunctionCode, Statement } from "../program/ir.js";
import { runFunction } from "./calls.js";
import { interruptsEnabled } from "./core/interrupt-control.js";
import { takeOverBuffers } from "./hardware/buffers.js";
import { countsOn } from "./hardware/counting.js";
import type { ChannelSlot, TimerSlot } from "./hardware/layout.js";
import { longestPeriod, modesOf, topOf } from "./hardware/modes.js";
import { forgetReadings } from "./inputs.js";
import { mergeByHardware, reduceStates } from "./reduce-states.js";
import type { Run } from "./run.js";
import { absorb, covered, JOIN, type State, sameForPins, widening } from "./state.js";

const MAX_ROUNDS = 40;
/** As many times the running states are looked for anew without those that only came before a routine first did. */
const MAX_FIRST_TIMES = 6;

interface Routine {
  readonly code: FunctionCode;
  readonly name: string;
  /** Register and bit that enable it; null where that is not looked at. */
  readonly mask: { readonly address: number; readonly bit: number } | null;
  /** Where a timer calls it once a period: that timer, and the compare channel (null: its overflow). */
  readonly periodic: { readonly timer: TimerSlot; readonly channel: ChannelSlot | null } | null;
}

/** Arranges for the sketch's routines to be let in. Without routines nothing changes. */
export function letInterruptsIn(run: Run): void {
  const routines = run.program.interrupts
    .map((code) => routineOf(run, code))
    .filter((routine) => matters(routine.code));
  let attachedSeen = false;
  run.mayInterrupt = (state) =>
    interruptsEnabled(state) !== false &&
    (state.core.attached.length > 0 || routines.some((routine) => isEnabled(state, routine)));
  run.onTime = (states, start) => {
    if (run.inInterrupt || states.length === 0) return states;
    attachedSeen ||= states.some((state) => state.core.attached.length > 0);
    if (routines.length === 0 && !attachedSeen) return states;
    return closure(run, states, routines, start);
  };
  let rounds = 0;
  run.afterRoutines = (states, start) =>
    run.inInterrupt || rounds++ > MAX_FIRST_TIMES ? null : afterFirstTimes(run, states, routines, start);
}

/**
 * The states in which a routine leaves the given ones, where that routine surely comes sooner or later and leaves out
 * some of them; null where none does. `states` are all that a turn may begin with: whatever recurs for ever also recurs
 * after the routine has come, so that what is reached from the answer is all that recurs.
 */
function afterFirstTimes(
  run: Run,
  states: readonly State[],
  routines: readonly Routine[],
  start: number,
): State[] | null {
  for (const routine of routines) {
    if (!states.every((state) => keepsComing(state, routine) && isUndisturbed(run, routine))) continue;
    const after = states.flatMap((state) => runRoutine(run, state.fork(), routine, start));
    const remains = states.every((state) => after.some((candidate) => sameForPins(candidate, state, run.variables)));
    if (after.length > 0 && !remains) return reduceStates(run, after, start);
  }
  return null;
}

/** Nothing that runs again and again keeps putting off the routine's moment. */
function isUndisturbed(run: Run, routine: Routine): boolean {
  const { periodic } = routine;
  if (periodic === null) return false;
  return !run.putOff.timers.has(periodic.timer.index) && !run.putOff.channels.has(periodic.channel?.index ?? -1);
}

function routineOf(run: Run, code: FunctionCode): Routine {
  const vector = code.interrupt ?? "";
  for (const timer of run.layout.timers) {
    const { fact } = timer;
    const mask =
      fact.overflow.vector === vector
        ? fact.overflow.mask
        : fact.captureInterrupt?.vector === vector
          ? fact.captureInterrupt.mask
          : fact.channels.find((channel) => channel.interrupt.vector === vector)?.interrupt.mask;
    if (mask === undefined) continue;
    const address = run.layout.address(fact.interruptMask);
    const bit = run.layout.registers[address]?.bits.find((candidate) => candidate.name === mask)?.position;
    if (bit === undefined) continue;
    const channel = timer.channels.find((candidate) => candidate.fact.interrupt.vector === vector) ?? null;
    const periodic = channel !== null || fact.overflow.vector === vector ? { timer, channel } : null;
    return { code, name: code.name, mask: { address, bit }, periodic };
  }
  return { code, name: code.name, mask: null, periodic: null };
}

/** Whether the routine has run at least once by the end of the wait that the state has just had. */
function surelyRan(state: State, routine: Routine): boolean {
  const { periodic } = routine;
  if (periodic === null || state.waited === 0 || state.waited < longestPeriod(state.machine, periodic.timer))
    return false;
  return keepsComing(state, routine);
}

/** Whether the routine comes once a period for as long as the state lasts. */
function keepsComing(state: State, routine: Routine): boolean {
  const { mask, periodic } = routine;
  if (mask === null || periodic === null || interruptsEnabled(state) !== true) return false;
  const { machine } = state;
  if ((machine.raw(mask.address).ones & (1 << mask.bit)) === 0) return false;
  const { timer, channel } = periodic;
  if (!countsOn(machine, timer)) return false;
  const modes = modesOf(machine, timer);
  if (modes === null) return false;
  return modes.every((mode) => {
    if (mode.family === "reserved") return false;
    const top = topOf(machine, timer, mode);
    if (channel !== null) return machine.workingOf(channel.index).max <= top.min;
    // In CTC the overflow comes at the counter's own end, which a match at TOP prevents.
    return mode.family !== "ctc";
  });
}

/** A routine that can change nothing which decides what pins do need not be run at every point. */
function matters(code: FunctionCode): boolean {
  return code.body !== null && statementMatters(code.body);
}

function statementMatters(statement: Statement): boolean {
  switch (statement.op) {
    case "block":
      return statement.body.some(statementMatters);
    case "expression": {
      const { expression } = statement;
      if (expression.op !== "assign")
        return (
          expression.op === "core" ||
          expression.op === "unknown" ||
          expression.op === "comma" ||
          expression.op === "choose"
        );
      return (
        expression.target.op !== "variable" ||
        expression.target.variable.relevant ||
        expression.value.op === "assign" ||
        expression.value.op === "core"
      );
    }
    case "declare":
    case "label":
    case "return":
    case "break":
    case "continue":
      return false;
    case "initialise":
      return statement.target.op !== "variable" || statement.target.variable.relevant;
    case "if":
      return statementMatters(statement.yes) || (statement.no !== null && statementMatters(statement.no));
    default:
      return true;
  }
}

function isEnabled(state: State, routine: Routine): boolean {
  if (routine.mask === null) return true;
  return (state.machine.raw(routine.mask.address).zeros & (1 << routine.mask.bit)) === 0;
}

/** As many states are kept apart at one point once routines have been run too often to follow every order of theirs. */
const COARSE_STATES = 3;

function closure(run: Run, entering: State[], routines: readonly Routine[], start: number): State[] {
  const coarse = run.routineRuns > run.limits.routineRuns;
  const most = coarse ? COARSE_STATES : run.limits.states;
  const haste = coarse ? 2 : 0;
  const states = coarse ? fewer(run, entering, start) : entering;
  const waiting = states.filter((state) => interruptsEnabled(state) !== false);
  if (waiting.length === 0) return states;
  if (run.untouched === null && waiting.some((state) => routines.some((routine) => isEnabled(state, routine))))
    run.untouched = waiting.map((state) => state.fork());
  // A routine may come at any of many moments: what it finds is not told apart by what was read before.
  if (waiting.some((state) => [...routines, ...attachedTo(state)].some((routine) => isEnabled(state, routine))))
    for (const state of states) forgetReadings(run, state);
  let all = states;
  const certain = new Set(waiting.filter((state) => routines.some((routine) => surelyRan(state, routine))));
  if (certain.size > 0) all = states.filter((state) => !certain.has(state));
  let fresh = waiting;
  for (let round = 0; fresh.length > 0; round++) {
    const produced: State[] = [];
    for (const state of fresh) {
      const must = round === 0 && certain.has(state) ? routines.filter((routine) => surelyRan(state, routine)) : null;
      for (const routine of must?.slice(0, 1) ?? [...routines, ...attachedTo(state)]) {
        if (!isEnabled(state, routine)) continue;
        const entered = state.fork();
        entered.inRoutine(routine.name, start);
        // When in the stretch just gone by it came is not known.
        entered.counters = null;
        produced.push(...runRoutine(run, entered, routine, start));
      }
    }
    const arrived: State[] = [];
    for (const state of produced) {
      const twin = all.find((candidate) => sameForPins(candidate, state, run.variables));
      if (twin !== undefined) {
        absorb(twin, state, widening(round), run.variables);
        continue;
      }
      const like =
        round < run.limits.roundsBeforeWidening && all.length < most && !coarse
          ? undefined
          : (all.find((candidate) => candidate.machine.runsLike(state.machine)) ??
            (all.length >= most ? all[0] : undefined));
      if (like === undefined) {
        all = [...all, state];
        arrived.push(state);
      } else if (!covered(state, like, run.variables)) {
        absorb(like, state, widening(round + haste), run.variables);
        run.collector.settle(like, start);
        arrived.push(like);
      }
    }
    fresh = [...new Set(arrived)];
    if (round > MAX_ROUNDS) {
      run.gap("interrupt routines did not settle within the rounds that are followed", start, start);
      break;
    }
  }
  return all.length > run.limits.states ? mergeByHardware(run, all) : reduceStates(run, all, start);
}

/** At most as many states as are kept apart when every order in which routines may come can no longer be followed. */
function fewer(run: Run, states: State[], start: number): State[] {
  if (states.length <= COARSE_STATES) return states;
  run.gap(
    "interrupt routines come in more ways than are followed one by one; what they leave was merged",
    start,
    start,
  );
  const merged = mergeByHardware(run, states);
  for (const state of merged.splice(COARSE_STATES)) absorb(merged[0]!, state, JOIN, run.variables);
  return merged;
}

function attachedTo(state: State): Routine[] {
  return state.core.attached.map((code) => ({ code, name: `${code.name}()`, mask: null, periodic: null }));
}

function runRoutine(run: Run, state: State, routine: Routine, start: number): State[] {
  const outer = run.where;
  run.routineRuns++;
  run.inInterrupt = true;
  run.where = { functionName: routine.code.name, interrupt: routine.name };
  const after = runFunction(run, [state], { ...routine.code, interrupt: routine.name }, start);
  run.where = outer;
  run.inInterrupt = false;
  for (const each of after) {
    forgetReadings(run, each);
    takeOverBuffers(each.machine, 0);
    each.timePassed = true;
    each.due = false;
    run.collector.settle(each, start);
  }
  return after;
}
