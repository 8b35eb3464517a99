/**
 * The recurring turns, run once more for their timing alone. Law: where a pin's pulses are told, every pulse from rise to
 * rise inside the recurring turns lies inside; pins of which nothing can be said are told to be lost.
 */
import { Bucket } from "../bucket.js";
import { bitOf } from "../hardware/alternatives.js";
import type { Run } from "../run.js";
import { absorb, type Combine, covered, JOIN, type State, sameForPins, widening } from "../state.js";
import { interruptionsOf, lateness } from "./load.js";
import { pinKey } from "./pulse-records.js";
import { comesBack, routineCourses } from "./routine-pulses.js";
import { started } from "./stopwatch.js";
import { Timing, TimingAbandoned, type WatchedPin } from "./timing.js";

/** Rounds of plain joining: one until every pin has been seen, one until that has gone round, one to see that it stays. */
const JOINED_ROUNDS = 3;
const MAX_ROUNDS = 12;
/** As many states are kept apart although only their variables differ: turns that come back exactly have few. */
const FEW_HEADS = 4;
/** Steps that a timing may take, and more where the analysis took long itself. */
const FREE_STEPS = 4_000;

/**
 * Measures what software makes of pins in `round`, which leads states at the head of a recurring stretch back there, and
 * writes it into `running`.
 */
export function timePulses(
  run: Run,
  running: Bucket,
  entering: readonly State[],
  round: (states: State[]) => State[],
): void {
  // Where something grew that was relied on, everything is run once more.
  if (run.interferenceGrew) return;
  const switched = pinsSwitched(run, running);
  const byMain = switched.filter((pin) => !pin.byInterrupt);
  const byRoutines = switched.filter((pin) => pin.byInterrupt && !pin.byMain);
  const follows = entering.length > 0 && !run.exhausted;
  const times = follows && byMain.length > 0 ? turnsTimed(run, byMain, entering, round) : null;
  const plays = entering.some((state) => state.core.tonePin !== -1);
  let masked = 0;
  if (running.masksInterrupts && (byRoutines.length > 0 || plays)) masked = longestMasked(run, entering, round);
  running.lateness = Math.max(running.lateness, lateness(interruptionsOf(run, entering), masked));
  const routines = follows && byRoutines.length > 0 ? routinesTimed(run, running, byRoutines, entering, masked) : [];
  for (const pin of switched) {
    const key = pinKey(pin.output, pin.bit);
    const found = [times, ...routines].map((bucket) => bucket?.pulses.of(key)).find((pulse) => pulse !== undefined);
    running.pulses.note(key, found ?? null);
  }
}

type Round = (states: State[]) => State[];

function stepsAtMost(run: Run): number {
  return Math.min(run.steps + Math.max(FREE_STEPS, run.steps / 4), run.limits.steps);
}

/** Pins that the main program switches. */
function turnsTimed(run: Run, pins: readonly WatchedPin[], entering: readonly State[], round: Round): Bucket | null {
  const timing = new Timing(pins, stepsAtMost(run), null);
  return measured(run, timing, () => settled(run, timing, entering, round));
}

/** The longest for which the recurring turns hold interrupts off; Infinity where that is not known. */
function longestMasked(run: Run, entering: readonly State[], round: Round): number {
  const timing = new Timing([], stepsAtMost(run), null);
  return measured(run, timing, () => settled(run, timing, entering, round)) === null
    ? Number.POSITIVE_INFINITY
    : timing.longestMasked;
}

/** Pins that the routines of one timer switch. */
function routinesTimed(
  run: Run,
  running: Bucket,
  pins: readonly WatchedPin[],
  heads: readonly State[],
  masked: number,
): (Bucket | null)[] {
  return routineCourses(run, running, pins, heads, masked).map((course) => {
    const timing = new Timing(course.pins, stepsAtMost(run), course.late);
    return measured(run, timing, () => {
      const back = comesBack(run, course, timing);
      if (back === null) return null;
      return settled(run, timing, back.states, (states) => {
        let current = states;
        for (let count = 0; count < back.periods; count++) current = course.round(run, timing, current);
        return current;
      });
    });
  });
}

interface SwitchedPin extends WatchedPin {
  readonly byInterrupt: boolean;
  readonly byMain: boolean;
}

/** Pins that are written high here and low there. */
function pinsSwitched(run: Run, running: Bucket): SwitchedPin[] {
  const found: SwitchedPin[] = [];
  for (const [output, entry] of running.switched) {
    for (let bit = 0; bit < 8; bit++) {
      const mask = 1 << bit;
      if ((entry.low & entry.high & mask) === 0) continue;
      const channels = run.layout.channels.filter((channel) => channel.output === output && channel.bit === bit);
      const [byMain, byInterrupt] = [(entry.byMain & mask) !== 0, (entry.byInterrupt & mask) !== 0];
      found.push({ output, direction: output - 1, bit, channels, byInterrupt, byMain });
    }
  }
  return found;
}

/** What a timing finds; null where it is given up. Everything else in the run is as before. */
function measured(run: Run, timing: Timing, work: () => Bucket | null): Bucket | null {
  const { collector, steps, unrolled, inInterrupt, where, routineRuns, interferenceGrew } = run;
  const { bucket } = collector;
  const frames = run.frames.length;
  const { depth } = collector.watches;
  run.timing = timing;
  run.unrolled = 0;
  run.routineRuns = 0;
  collector.muted = true;
  collector.bucket = new Bucket(collector.layout);
  try {
    return work();
  } catch (error) {
    if (!(error instanceof TimingAbandoned)) throw error;
    return null;
  } finally {
    run.timing = null;
    run.steps = steps;
    run.unrolled = unrolled;
    run.routineRuns = routineRuns;
    run.interferenceGrew = interferenceGrew;
    run.inInterrupt = inInterrupt;
    run.where = where;
    run.frames.length = frames;
    collector.watches.cutTo(depth);
    collector.muted = false;
    collector.bucket = bucket;
  }
}

function settled(
  run: Run,
  timing: Timing,
  entering: readonly State[],
  round: (states: State[]) => State[],
): Bucket | null {
  const keys = timing.pins.map((pin) => pinKey(pin.output, pin.bit));
  let heads: State[] = [];
  for (const state of entering) heads = gather(run, heads, withStopwatch(timing, state), JOIN).heads;
  for (let count = 0; count < MAX_ROUNDS; count++) {
    const bucket = new Bucket(run.collector.layout);
    run.collector.bucket = bucket;
    if (timing.late === null) timing.interruptions = interruptionsOf(run, heads);
    const after = round(heads.map((state) => state.fork()));
    let grew = false;
    for (const state of after) {
      state.conditions = null;
      const next = gather(run, heads, state, count < JOINED_ROUNDS ? JOIN : widening(count));
      heads = next.heads;
      grew ||= next.grew;
    }
    if (!grew) return bucket;
    if (keys.length > 0 && bucket.pulses.lost(keys)) return null;
  }
  return null;
}

/** Puts a state to the one that goes on like it. */
function gather(run: Run, heads: State[], state: State, combine: Combine): { heads: State[]; grew: boolean } {
  const like =
    heads.find((candidate) => sameForPins(candidate, state, run.variables)) ??
    (heads.length < FEW_HEADS
      ? undefined
      : heads.find((candidate) => candidate.machine.runsLike(state.machine) && !run.apart(candidate, state)));
  if (like === undefined) {
    if (heads.length >= run.limits.states) throw new TimingAbandoned();
    return { heads: [...heads, state], grew: true };
  }
  if (covered(state, like, run.variables)) return { heads, grew: false };
  absorb(like, state, combine, run.variables);
  return { heads, grew: true };
}

function withStopwatch(timing: Timing, state: State): State {
  const copy = state.fork();
  copy.stopwatch = started(timing.pins.map((pin) => bitOf(copy.machine.raw(pin.output), pin.bit)));
  return copy;
}
