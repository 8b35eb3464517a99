/**
 * Pulses that a timer's interrupt routines make. The routines are run period after period, as the timer calls them, until
 * everything that they go by comes back; what they switch meanwhile recurs for ever. Law: every pulse from rise to rise that
 * the pin then gives lies inside what is told, each routine coming late by no more than others can make it.
 */
import type { FunctionCode } from "../../program/ir.js";
import type { Bucket } from "../bucket.js";
import { runFunction } from "../calls.js";
import * as number from "../domain/number.js";
import { bitOf } from "../hardware/alternatives.js";
import { takeOverBuffers } from "../hardware/buffers.js";
import { BYTE } from "../hardware/machine.js";
import { Aggregate } from "../memory.js";
import type { Run } from "../run.js";
import { type State, sameForPins } from "../state.js";
import { anything, join } from "../value.js";
import { interruptionsOf, lateness } from "./load.js";
import { type Schedule, Schedules, sameSchedule } from "./schedule.js";
import type { Timing, WatchedPin } from "./timing.js";

/** Periods that are followed in search of one that comes back. */
const PERIODS = 2_200;
/** Ways that one period may go. */
const WAYS = 8;

/** The timer that alone switches the pin, with its course; null where it is not alone, or not steady. */
export interface RoutineCourse {
  readonly pins: readonly WatchedPin[];
  readonly late: number;
  /** The states at the begin of a period that comes back. */
  readonly entering: readonly State[];
  /** From there to there again. */
  readonly round: (run: Run, timing: Timing, states: State[]) => State[];
}

/** For every timer whose routines switch pins that nobody else does, how its routines go. `masked` as in `lateness`. */
export function routineCourses(
  run: Run,
  running: Bucket,
  pins: readonly WatchedPin[],
  heads: readonly State[],
  masked: number,
): RoutineCourse[] {
  const courses: RoutineCourse[] = [];
  for (const timer of run.layout.timers) {
    const schedules = new Schedules(run, timer);
    const schedule = steadySchedule(run, running, heads, schedules);
    if (schedule === null || schedule.routines.length === 0) continue;
    const names = new Set(schedule.routines.map(({ code }) => code.name));
    const own = pins.filter((pin) => switchedOnlyBy(running, pin, names));
    const late = Math.max(...schedule.routines.map(({ code }) => lateness(interruptionsOf(run, heads, code), masked)));
    if (own.length === 0 || !Number.isFinite(late)) continue;
    const start = startOf(run, running, heads, own, names);
    if (start === null) continue;
    courses.push({
      pins: own,
      late,
      entering: [start],
      round: (_, timing, states) => period(run, running, timing, names, schedules, states),
    });
  }
  return courses;
}

function steadySchedule(run: Run, running: Bucket, heads: readonly State[], schedules: Schedules): Schedule | null {
  const found = heads.map((head) => schedules.of(head));
  const first = found[0] ?? null;
  if (first === null || run.routinesNest || found.includes(null)) return null;
  const { timer } = first;
  if (running.timers[timer.index]!.size === 0) return null;
  // Nothing that runs may put a routine's moment off; TOP and compare values only the routines themselves may set.
  const { interruptMask, flags } = timer.fact;
  const shared = [interruptMask, flags, "GTCCR", "PRR", "PRR0", "PRR1", "CLKPR"].map((name) => registerAt(run, name));
  const touchy = new Set([...timer.control, timer.counter, timer.counter + 1, ...shared]);
  const moments = new Set([timer.capture, timer.channels[0]!.compare]);
  for (const channel of timer.channels) {
    const { vector } = channel.fact.interrupt;
    if (first.routines.some(({ code }) => code.interrupt === vector)) moments.add(channel.compare);
  }
  for (const { address, regimes, where } of run.collector.writes.values()) {
    if (!regimes.has("running")) continue;
    if (touchy.has(address) || (where.interrupt === null && moments.has(address))) return null;
  }
  return first;
}

function registerAt(run: Run, name: string): number {
  return run.layout.registers.findIndex((register) => register?.name === name);
}

function switchedOnlyBy(running: Bucket, pin: WatchedPin, names: ReadonlySet<string>): boolean {
  const mask = 1 << pin.bit;
  const entry = running.switched.get(pin.output);
  if (entry === undefined || (entry.byMain & mask) !== 0) return false;
  for (const [routine, bits] of entry.routines) if ((bits & mask) !== 0 && !names.has(routine)) return false;
  // An output in everything that runs.
  return [...(running.ports.get(pin.output)?.values() ?? [])].every(
    (record) => bitOf(record.direction, pin.bit) === true,
  );
}

/** A state that may be while the program runs, in which all that only the routines write is known. */
function startOf(
  run: Run,
  running: Bucket,
  heads: readonly State[],
  pins: readonly WatchedPin[],
  names: ReadonlySet<string>,
): State | null {
  const known = heads.find((head) => {
    if (pins.some((pin) => bitOf(head.machine.raw(pin.output), pin.bit) === null)) return false;
    return ownObjects(run, names).every((object) => {
      const value = head.memory.get(object);
      return value !== undefined && "zeros" in value && number.isSingle(value);
    });
  });
  if (known === undefined) return beforeRoutines(run, running, heads, pins, names);
  const start = known.fork();
  start.conditions = null;
  forgetOthers(run, running, names, start);
  return start;
}

/** Where the routines begin: what only they write is as it was before any of them came. */
function beforeRoutines(
  run: Run,
  running: Bucket,
  heads: readonly State[],
  pins: readonly WatchedPin[],
  names: ReadonlySet<string>,
): State | null {
  const [untouched, ...others] = run.untouched ?? [];
  const [head] = heads;
  if (untouched === undefined || head === undefined) return null;
  const start = head.fork();
  for (const object of ownObjects(run, names)) {
    const fresh = untouched.memory.get(object);
    if (fresh === undefined || run.leftLater.has(object)) return null;
    if (others.some((other) => other.memory.get(object) !== fresh)) return null;
    start.memory.set(object, fresh);
  }
  for (const pin of pins) {
    const level = bitOf(untouched.machine.raw(pin.output), pin.bit);
    if (level === null) return null;
    const mask = 1 << pin.bit;
    const port = start.machine.raw(pin.output);
    const zeros = level ? port.zeros & ~mask : port.zeros | mask;
    const ones = level ? port.ones | mask : port.ones & ~mask;
    start.machine.store(pin.output, number.fromBits(zeros >>> 0, ones >>> 0, BYTE), -1);
  }
  start.conditions = null;
  forgetOthers(run, running, names, start);
  return start;
}

/** Variables that these routines alone write, as far as they decide anything. */
function ownObjects(run: Run, names: ReadonlySet<string>): number[] {
  return [...run.writersAmongRoutines]
    .filter(([object, writers]) => !run.leftByMain.has(object) && [...writers].every((name) => names.has(name)))
    .map(([object]) => object)
    .filter((object) => run.variables.get(Math.floor(object / 256))?.relevant !== false);
}

/** What the main program or another routine may have written since holds anything that these leave there. */
function forgetOthers(run: Run, running: Bucket, names: ReadonlySet<string>, state: State): void {
  for (const [object, value] of run.leftByMain) {
    const present = state.memory.get(object);
    if (present === undefined) continue;
    if (present instanceof Aggregate) state.memory.set(object, new Aggregate(new Map(), "unknown", null, state.token));
    else state.memory.set(object, join(present, value));
  }
  for (const [object, writers] of run.writersAmongRoutines) {
    if ([...writers].every((name) => names.has(name))) continue;
    const type = run.variables.get(Math.floor(object / 256))?.type;
    const present = state.memory.get(object);
    if (present instanceof Aggregate || type === undefined)
      state.memory.set(object, new Aggregate(new Map(), "unknown", null, state.token));
    else if (present !== undefined) state.memory.set(object, anything(type));
  }
  for (const [output, entry] of running.switched) {
    let others = entry.byMain;
    for (const [routine, bits] of entry.routines) if (!names.has(routine)) others |= bits;
    const { zeros, ones } = state.machine.raw(output);
    if (((zeros | ones) & others) === 0) continue;
    state.machine.store(output, number.fromBits((zeros & ~others) >>> 0, (ones & ~others) >>> 0, BYTE), -1);
  }
}

/** One period of the timer, from its begin to the next one. */
function period(
  run: Run,
  running: Bucket,
  timing: Timing,
  names: ReadonlySet<string>,
  schedules: Schedules,
  states: State[],
): State[] {
  const after: State[] = [];
  for (const entering of states) {
    const schedule = schedules.of(entering);
    if (schedule === null) timing.abandon();
    let current = [entering];
    let now = 0;
    for (const [index, due] of schedule.routines.entries()) {
      const next: State[] = [];
      for (const state of current) {
        state.stopwatch?.pass(due.at - now, due.at - now, 0);
        if (due.at === schedule.period && now < due.at) takeOverBuffers(state.machine, schedule.period);
        forgetOthers(run, running, names, state);
        next.push(...once(run, timing, state, due.code, index + 1, schedules, schedule));
      }
      now = due.at;
      current = next;
      // What a routine changes before the period is over would count at once.
      if (due.at < schedule.period) {
        for (const state of current) {
          const then = schedules.of(state);
          if (then === null || !sameSchedule(then, schedule)) timing.abandon();
        }
      }
    }
    if (now < schedule.period) {
      for (const state of current) {
        state.stopwatch?.pass(schedule.period - now, schedule.period - now, 0);
        takeOverBuffers(state.machine, schedule.period);
      }
    }
    after.push(...current);
  }
  const kept: State[] = [];
  for (const state of after) {
    const twin = kept.find((candidate) => sameForPins(candidate, state, run.variables));
    if (twin === undefined) kept.push(state);
    else if (state.stopwatch !== null) twin.stopwatch?.absorb(state.stopwatch, false);
  }
  if (kept.length > WAYS) timing.abandon();
  return kept;
}

/** The routine is called; it has to be over before it is due again. */
function once(
  run: Run,
  timing: Timing,
  state: State,
  code: FunctionCode,
  path: number,
  schedules: Schedules,
  schedule: Schedule,
): State[] {
  const outer = run.where;
  run.inInterrupt = true;
  run.where = { functionName: code.name, interrupt: code.name };
  state.stopwatch?.enterRoutine(path);
  const after = runFunction(run, [state], { ...code, interrupt: code.name });
  run.where = outer;
  run.inInterrupt = false;
  if (after.length === 0) timing.abandon();
  for (const each of after) {
    each.due = false;
    const taken = each.stopwatch?.leaveRoutine() ?? 0;
    const then = schedules.of(each)?.period ?? 0;
    if (taken + (timing.late ?? 0) >= Math.min(schedule.period, then)) timing.abandon();
  }
  return after;
}

/** Periods from the start until one comes back: the states there, and as many periods as lead there again. */
export function comesBack(
  run: Run,
  course: RoutineCourse,
  timing: Timing,
): { readonly states: State[]; readonly periods: number } | null {
  const history: State[][] = [];
  const alike = new Map<number, number[]>();
  let current = course.entering.map((state) => state.fork());
  for (let count = 0; count < PERIODS; count++) {
    const print = current.reduce((sum, state) => (sum + printOf(run, state, course.pins)) | 0, current.length);
    const same = alike.get(print) ?? [];
    const back = same.find((index) => sameSet(run, history[index]!, current));
    if (back !== undefined) return { states: history[back]!, periods: count - back };
    alike.set(print, [...same, count]);
    history.push(current.map((state) => state.fork()));
    for (const state of current) state.conditions = null;
    current = course.round(run, timing, current);
  }
  return null;
}

function sameSet(run: Run, left: readonly State[], right: readonly State[]): boolean {
  return (
    left.length === right.length &&
    right.every((state) => left.some((candidate) => sameForPins(candidate, state, run.variables)))
  );
}

/** A number that equal states share. */
function printOf(run: Run, state: State, pins: readonly WatchedPin[]): number {
  let sum = 0;
  for (const [object, value] of state.memory) {
    if (run.variables.get(Math.floor(object / 256))?.relevant === false) continue;
    if ("zeros" in value) sum = (sum + Math.imul(object + 1, 31 + (value.min | 0)) + (value.max | 0)) | 0;
  }
  for (const pin of pins) sum = (sum * 3 + (bitOf(state.machine.raw(pin.output), pin.bit) === true ? 1 : 0)) | 0;
  return sum;
}
