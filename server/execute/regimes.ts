/**
 * What recurs. A program's last part runs for ever: loop(), or an endless loop of its own. Turns are followed until a
 * state of affairs comes back; where none does, values widen until nothing new arrives. Law: every settled state of every
 * turn but the first ones lies in what is called running.
 */
import { Bucket } from "./bucket.js";
import { hasWaiting } from "./hardware/buffers.js";
import { forgetReadings } from "./inputs.js";
import { timePulses } from "./pulses/timing-pass.js";
import type { Spell } from "./pulses/waits.js";
import { mergeByHardware, reduceStates } from "./reduce-states.js";
import { PutOff, type Run } from "./run.js";
import { absorb, covered, type State, sameForPins, widening } from "./state.js";
import { passTime } from "./time-passing.js";

const MAX_WIDENING_ROUNDS = 60;
/** Rounds of plain joining that widening is spared: one is made, then bounds climb. */
const HASTE = 2;
/** Between two turns: leaving the loop's function and coming back, the serial port's events asked for (main.cpp of the core). */
const TURN: Spell = { least: 1, most: 80, busy: 80 };

/** How a stretch of turns went: those that do not come back, those that do, and the states in which the latter begin. */
interface Course {
  readonly startUp: readonly Bucket[];
  /** Null where no turn ever ends. */
  readonly running: Bucket | null;
  readonly recurring: readonly State[];
  /** States in which a stretch of so many turns begins that leads back to such. */
  readonly heads: readonly State[];
  readonly turns: number;
}

/** Runs `turn` for ever from the given states. No state comes out: what follows is never reached. */
export function runForever(run: Run, states: State[], place: number, turn: (states: State[]) => State[]): State[] {
  const { collector } = run;
  // What never comes back has been timed where it was found.
  if (run.timing !== null) return [];
  const outer = collector.bucket;
  const outerRegime = collector.regime;
  collector.regime = "running";
  // Where the counters stand matters once more if a value still waits to be put to work; turns that recur know nothing of it.
  for (const state of states) if (!hasWaiting(state.machine)) state.counters = null;
  // An interrupt may come before the first turn does anything.
  for (const state of states) forgetReadings(run, state);
  let entering: State[] | null = run.onTime(states, place);
  while (entering !== null) {
    const { startUp, running, recurring, heads, turns }: Course = follow(run, entering, place, turn);
    for (const bucket of startUp) outer.add(bucket);
    // Where no turn ends, something inside runs for ever and has put its states on record, or nothing is left.
    entering = running === null ? null : run.afterRoutines(recurring, place);
    // What was seen only before a routine first came does not recur.
    if (entering !== null) outer.add(running!);
    else if (running !== null) {
      timePulses(run, running, heads, (states) => {
        let current = states;
        for (let count = 0; count < turns; count++) current = endTurn(run, turn(current), place);
        return current;
      });
      run.running(collector.layout).add(running);
    }
  }
  collector.bucket = outer;
  collector.regime = outerRegime;
  return [];
}

/** Turns one by one until a state of affairs comes back; a fixed point where none does. */
function follow(run: Run, entering: State[], place: number, turn: (states: State[]) => State[]): Course {
  const { collector } = run;
  const turns: Bucket[] = [];
  const history: State[][] = [];
  const putOffs: PutOff[] = [];
  /** Turns by what their states share with equal ones. */
  const alike = new Map<number, number[]>();
  let current = entering;
  for (const state of current) state.countersSet = 0;
  let print = fingerprint(run, current);
  /** A turn that begins with counters whose place is known does not come back as it was. */
  const first = current.some((state) => state.counters !== null) ? 1 : 0;
  for (let count = 0; current.length > 0 && !run.exhausted; count++) {
    // A state that is known through and through costs little to follow: it may take many turns to come back.
    if (count >= (isDetermined(run, current) ? run.limits.followedTurnsAlone : run.limits.followedTurns)) break;
    for (const state of current) state.conditions = null;
    alike.set(print, [...(alike.get(print) ?? []), history.length]);
    history.push(current.map((state) => state.fork()));
    const bucket = new Bucket(collector.layout);
    collector.bucket = bucket;
    turns.push(bucket);
    run.putOff = new PutOff();
    putOffs.push(run.putOff);
    const steps = run.steps;
    current = endTurn(run, turn(current), place);
    print = fingerprint(run, current);
    for (const state of current) state.counters = null;
    const back = alike.get(print)?.find((index) => index >= first && sameSet(run, history[index]!, current));
    if (back !== undefined) {
      const running = new Bucket(collector.layout);
      for (const recurring of turns.slice(back)) running.add(recurring);
      for (const each of putOffs.slice(back)) run.putOff.add(each);
      const heads = history[back]!;
      return {
        startUp: turns.slice(0, back),
        running,
        recurring: history.slice(back).flat(),
        heads,
        turns: turns.length - back,
      };
    }
    run.unrolled += run.steps - steps;
    if (run.unrolled > run.limits.unrolledSteps && count > 1) break;
  }
  if (current.length === 0) return { startUp: turns, running: null, recurring: [], heads: [], turns: 0 };
  for (const state of current) state.counters = null;
  // States after the first turn recur, or may: the fixed point starts from them.
  const heads = [...(history[1] ?? current), ...current];
  const from = heads.map((state) => state.fork());
  return { startUp: turns.slice(0, 1), ...settleForever(run, from, place, turn), heads, turns: 1 };
}

/** The end of a turn is a settled point. */
function endTurn(run: Run, states: State[], place: number): State[] {
  run.collector.bucket.cut.noteTurn(states);
  for (const state of states) forgetReadings(run, state);
  const reduced = reduceStates(run, states, place);
  for (const state of reduced) {
    passTime(run, state, place, 0, TURN);
    state.due = false;
  }
  const after = run.onTime(reduced, place);
  for (const state of after) state.waited = 0;
  return reduceStates(run, after, place);
}

/** True where one state is left and everything in it that matters has one value. */
function isDetermined(run: Run, states: readonly State[]): boolean {
  const [state] = states;
  if (state === undefined || states.length > 1) return false;
  for (const [object, value] of state.memory) {
    if (!("min" in value) || value.min === value.max) continue;
    if (run.variables.get(Math.floor(object / 256))?.relevant !== false) return false;
  }
  return true;
}

/** A number that equal sets of states share. */
function fingerprint(run: Run, states: readonly State[]): number {
  let sum = states.length;
  for (const state of states) {
    for (const [object, value] of state.memory) {
      if (!("min" in value) || run.variables.get(Math.floor(object / 256))?.relevant === false) continue;
      // Whole counts of thousandths tell floats apart well enough.
      const scale = "zeros" in value ? 1 : 1000;
      sum = (sum + Math.imul(object + 1, 31 + ((value.min * scale) | 0)) + ((value.max * scale) | 0)) | 0;
    }
  }
  return sum;
}

function sameSet(run: Run, left: readonly State[], right: readonly State[]): boolean {
  if (left.length !== right.length) return false;
  return right.every((state) => left.some((candidate) => sameForPins(candidate, state, run.variables)));
}

/** A set of states that a turn maps into itself; its last turn's settled states are what runs. */
function settleForever(
  run: Run,
  entering: State[],
  place: number,
  turn: (states: State[]) => State[],
): { readonly running: Bucket; readonly recurring: readonly State[] } {
  const { collector } = run;
  let invariant = mergeByHardware(run, entering);
  let bucket = new Bucket(collector.layout);
  for (let count = 0; ; count++) {
    bucket = new Bucket(collector.layout);
    collector.bucket = bucket;
    run.putOff = new PutOff();
    for (const state of invariant) state.conditions = null;
    const after = mergeByHardware(run, endTurn(run, turn(invariant.map((state) => state.fork())), place));
    let grew = false;
    for (const state of after) {
      const like =
        invariant.find((candidate) => candidate.machine.runsLike(state.machine)) ??
        (invariant.length >= run.limits.states ? invariant[0] : undefined);
      if (like === undefined) {
        invariant = [...invariant, state];
        grew = true;
      } else if (!covered(state, like, run.variables)) {
        absorb(like, state, widening(count + HASTE), run.variables);
        grew = true;
      }
    }
    if (!grew) return { running: bucket, recurring: invariant };
    if (count > MAX_WIDENING_ROUNDS) {
      run.gap("the sketch's turns did not settle within the rounds that are followed", place, place);
      return { running: bucket, recurring: invariant };
    }
  }
}
