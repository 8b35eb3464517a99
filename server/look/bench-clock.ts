/**
 * The bench readings of a sketch beside what is predicted for them, and the clock error that they agree on: every verdict over the
 * clock's tolerance asks here. What might explain a misfit is found elsewhere (`server/readings`).
 */
import type { TimerFact } from "../../shared-model/chip.js";
import { type ClockSpread, evenSpread } from "../../shared-model/clock-spread.js";
import { type ClockEstimate, estimateClock, isFinerThan } from "../../shared-model/readings/clock-error.js";
import { type Match, matchOf } from "../../shared-model/readings/compare.js";
import { replaceRegisters } from "../../shared-model/readings/replaced-registers.js";
import { type Bounds, type Waveform, withoutHalves } from "../../shared-model/signal.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import { pinWaveforms } from "../../shared-model/waveforms/pin-waveforms.js";
import { type Analysis, type PinHistory, type PlacedComment, timerOf } from "../analysis.js";
import { lastingStates } from "./look.js";
import { pinOfComment } from "./wanted-pin.js";

/** One state in which the reading may have been taken, and whether it gives the reading. */
export interface Prediction {
  readonly waveform: Waveform;
  readonly when: string | null;
  readonly match: Match;
}

export interface ComparedReading {
  readonly reading: ReadingComment;
  /** Null where the pin's name means none. */
  readonly pin: PinHistory | null;
  readonly predictions: readonly Prediction[];
  readonly fits: "yes" | "no" | "unknown";
  /** The predictions that give it. */
  readonly giving: readonly Prediction[];
  /** The relative clock error that this reading alone tells of; null where it fits nothing or tells nothing. */
  readonly clockError: Bounds<number> | null;
  /** Where nothing could be compared, or nothing decided: one clause. */
  readonly open: string | null;
}

export interface PlacedReading extends ComparedReading {
  readonly placed: PlacedComment;
}

export interface BenchClock {
  readonly spread: ClockSpread;
  /** The readings agree on a clock error, which the spread is or is too coarse to be. */
  readonly estimate: ClockEstimate;
  readonly readings: readonly PlacedReading[];
}

const made = new WeakMap<Analysis, BenchClock>();

const kept = new WeakMap<Analysis, ClockSpread>();

/** How far the clock of this sketch's board may be off: what its bench readings agree on, else its tolerance. */
export function clockSpread(analysis: Analysis): ClockSpread {
  return kept.get(analysis) ?? benchClock(analysis).spread;
}

/**
 * Says that an edited sketch is for the same board as the sketch that it was made from: its clock stays what was measured. The
 * readings in its text were taken before the edit and tell nothing of it.
 */
export function keepClock(edited: Analysis, original: Analysis): void {
  kept.set(edited, clockSpread(original));
}

export function benchClock(analysis: Analysis): BenchClock {
  const present = made.get(analysis);
  if (present !== undefined) return present;
  const found = compareAll(analysis);
  made.set(analysis, found);
  return found;
}

/** A reading that does not stand in the sketch, judged by the clock that the sketch's own readings tell of. */
export function compareAnother(analysis: Analysis, reading: ReadingComment, pin: PinHistory | null): ComparedReading {
  const { spread } = benchClock(analysis);
  return judged(predicted(analysis, reading, pin), spread, (clocks) =>
    clocks.some((clock) => clock.max >= spread.min && clock.min <= spread.max) ? "yes" : "no",
  );
}

interface Predicted {
  readonly reading: ReadingComment;
  readonly pin: PinHistory | null;
  readonly predictions: readonly Prediction[];
  readonly open: string | null;
}

function compareAll(analysis: Analysis): BenchClock {
  const { clockTolerance } = analysis.target;
  const all = analysis.comments.flatMap((placed) => {
    const { comment } = placed;
    if (comment.kind !== "reading") return [];
    const pin = pinOfComment(analysis, placed);
    return [{ placed, ...predicted(analysis, comment, pin ?? null, pin === undefined) }];
  });
  // Only readings that surely tell of the clock are asked.
  const witnesses = all.filter(
    ({ predictions }) =>
      clocksOf(predictions).length > 0 && predictions.every(({ match }) => match.kind !== "open" && !isTimeless(match)),
  );
  const estimate = estimateClock(
    witnesses.map((each) => ({ clocks: clocksOf(each.predictions), setting: settingOf(each) })),
    clockTolerance,
  );
  const { error } = estimate;
  const spread =
    error !== null && isFinerThan(error, clockTolerance)
      ? { ...error, readings: estimate.agreeing }
      : evenSpread(clockTolerance);
  const readings = all.map((each) => {
    const standing = estimate.standing[witnesses.indexOf(each)];
    const compared = judged(each, error ?? evenSpread(clockTolerance), (clocks) => {
      if (standing !== undefined) return standing === "agrees" ? "yes" : standing === "misfit" ? "no" : "unknown";
      return clocks.some((clock) => clock.max >= spread.min && clock.min <= spread.max) ? "yes" : "no";
    });
    return { ...compared, placed: each.placed };
  });
  return { spread, estimate, readings };
}

/** Whether the state gives the reading whatever the clock. */
function isTimeless(match: Match): boolean {
  return match.kind === "gives" && match.clock === null;
}

function clocksOf(predictions: readonly Prediction[]): readonly Bounds<number>[] {
  return predictions.flatMap(({ match }) => (match.kind === "gives" && match.clock !== null ? [match.clock] : []));
}

/** Readings of one timer in one state share whatever is wrong with it. */
function settingOf({ pin, predictions }: Predicted): string {
  const rates = predictions.map(({ waveform }) =>
    waveform.frequencyHz === null ? "" : `${waveform.frequencyHz.min.num}/${waveform.frequencyHz.min.den}`,
  );
  return `${pin?.timer ?? pin?.port}:${[...new Set(rates)].sort().join()}`;
}

function judged(
  predicted: Predicted,
  clock: Bounds<number>,
  byClock: (clocks: readonly Bounds<number>[]) => ComparedReading["fits"],
): ComparedReading {
  const { predictions, open } = predicted;
  const base = { reading: predicted.reading, pin: predicted.pin, predictions };
  const nothing = { ...base, giving: [], clockError: null };
  if (open !== null) return { ...nothing, fits: "unknown", open };
  const giving = nearest(predictions, clock);
  const unsure = predictions.find(({ match }) => match.kind === "open")?.match;
  const clocks = clocksOf(giving);
  const fits = giving.some(({ match }) => isTimeless(match)) ? "yes" : clocks.length === 0 ? "no" : byClock(clocks);
  if (fits === "yes") return { ...base, giving, clockError: hull(clocks), fits, open: null };
  if (unsure?.kind === "open") return { ...nothing, fits: "unknown", open: unsure.because };
  const contradicted = "another reading contradicts it, and which of them is wrong cannot be told";
  if (fits === "unknown") return { ...base, giving, clockError: hull(clocks), fits, open: contradicted };
  return { ...nothing, fits, open: null };
}

/** The predictions that give the reading at such a clock; where none does, all that give it at any. */
function nearest(predictions: readonly Prediction[], { min, max }: Bounds<number>): readonly Prediction[] {
  const giving = predictions.filter(({ match }) => match.kind === "gives");
  const inside = giving.filter(
    ({ match }) =>
      match.kind === "gives" && (match.clock === null || (match.clock.max >= min && match.clock.min <= max)),
  );
  return inside.length > 0 ? inside : giving;
}

function hull(clocks: readonly Bounds<number>[]): Bounds<number> | null {
  if (clocks.length === 0) return null;
  return { min: Math.min(...clocks.map(({ min }) => min)), max: Math.max(...clocks.map(({ max }) => max)) };
}

function predicted(analysis: Analysis, reading: ReadingComment, pin: PinHistory | null, quiet = false): Predicted {
  const none = { reading, pin, predictions: [] };
  if (pin === null)
    return {
      ...none,
      open: quiet ? `nothing drives ${reading.pin}` : `${reading.pin} is no pin that is known here`,
    };
  const waveforms = reading.registers.length === 0 ? ownSignals(pin) : replacedSignals(analysis, reading, pin);
  if ("problem" in waveforms) return { ...none, open: waveforms.problem };
  const predictions = waveforms.found.map(({ waveform, when }) => ({
    waveform,
    when,
    match: matchOf(reading, waveform),
  }));
  // A pulse where the sketch leaves the pin alone comes from elsewhere.
  const idle = predictions.every(({ waveform, match }) => waveform.kind === "not driven" && match.kind === "differs");
  return { reading, pin, predictions, open: idle ? "the sketch does not drive this pin" : null };
}

type Signals = { readonly found: readonly Omit<Prediction, "match">[] } | { readonly problem: string };

/** The running regime; setup where the sketch has no other. */
function ownSignals(pin: PinHistory): Signals {
  const running = pin.signals.filter((signal) => signal.regime === "running");
  const lasting = withoutHalves(running.length > 0 ? running : pin.signals);
  return { found: lasting.map((signal) => ({ waveform: signal, when: signal.when })) };
}

function replacedSignals(analysis: Analysis, reading: ReadingComment, pin: PinHistory): Signals {
  const { chip, clockHz } = analysis.target;
  const states = replacedStates(analysis, reading, pin);
  if ("problem" in states) return states;
  const found = states.found.flatMap(({ snapshots, when }) =>
    pinWaveforms(chip, pin.port, snapshots, clockHz).map((waveform) => ({ waveform, when })),
  );
  return { found };
}

/** One state of the timer or timers that have a unit on a pin. */
export interface PinState {
  readonly snapshots: readonly TimerSnapshot[];
  readonly when: string | null;
}

/** The lasting states of the pin's timers with the reading's registers in place; more than one timer only on shared pins. */
export function replacedStates(
  analysis: Analysis,
  reading: Pick<ReadingComment, "registers">,
  pin: PinHistory,
): { readonly found: readonly PinState[] } | { readonly problem: string } {
  const { chip } = analysis.target;
  const timers = chip.timers.filter((timer) => timer.channels.some(({ unit }) => pin.units.includes(unit)));
  const [first] = reading.registers;
  if (timers.length === 0) return { problem: `no timer is on this pin: ${first?.name ?? "registers"} cannot move it` };
  let found: PinState[] = [{ snapshots: [], when: null }];
  for (const { number } of timers) {
    const states = lastingStates(analysis, number);
    found = found.flatMap((partial) =>
      states.map((state) => ({
        snapshots: [...partial.snapshots, state.snapshot],
        when: partial.when ?? state.when,
      })),
    );
  }
  const replaced: PinState[] = [];
  for (const state of found) {
    const changed = replaceInAll(analysis, state.snapshots, reading.registers);
    if ("problem" in changed) return changed;
    replaced.push({ ...state, snapshots: changed.snapshots });
  }
  return { found: replaced };
}

/** Each replacement in the timers that it touches; a problem where it touches none of them. */
function replaceInAll(
  analysis: Analysis,
  snapshots: readonly TimerSnapshot[],
  registers: ReadingComment["registers"],
): { readonly snapshots: readonly TimerSnapshot[] } | { readonly problem: string } {
  const { chip } = analysis.target;
  let present = [...snapshots];
  for (const register of registers) {
    const tried = present.map((snapshot) =>
      replaceRegisters(chip, timerFact(analysis, snapshot), snapshot, [register]),
    );
    const problems = tried.flatMap((each) => ("problem" in each ? [each.problem] : []));
    if (problems.length === present.length) return { problem: problems[0] ?? "its timer has no state" };
    present = present.map((snapshot, index) => {
      const each = tried[index]!;
      return "problem" in each ? snapshot : each.snapshot;
    });
  }
  return { snapshots: present };
}

function timerFact(analysis: Analysis, snapshot: TimerSnapshot): TimerFact {
  return timerOf(analysis.target.chip, snapshot.timer);
}
