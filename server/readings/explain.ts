/**
 * What would explain a reading that does not fit: the nearest register states, clocks and pins that give it, by how small a slip
 * leads there and how near the middle of the reading they come.
 */
import { spreadOf } from "../../shared-model/clock-spread.js";
import { toNumber } from "../../shared-model/fraction.js";
import { highest, lowest, matchOf, widthOf } from "../../shared-model/readings/compare.js";
import { connectionSlips, controlSlips } from "../../shared-model/readings/control-slips.js";
import { compareSlips, topSlips } from "../../shared-model/readings/count-slips.js";
import { differing, replaceRegisters } from "../../shared-model/readings/replaced-registers.js";
import type { Slip, SlipGround } from "../../shared-model/readings/slip.js";
import { OTHER_TOP, otherTops, type WantedRate, wholeSettings } from "../../shared-model/readings/whole-settings.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { ReportedRegister } from "../../shared-model/report.js";
import type { Bounds, Waveform } from "../../shared-model/signal.js";
import type { TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import { pinWaveforms } from "../../shared-model/waveforms/pin-waveforms.js";
import { anyValue } from "../../shared-model/waveforms/register-members.js";
import { type Analysis, type PinHistory, timerOf } from "../analysis.js";
import { clockSpread, compareAnother, replacedStates } from "../look/bench-clock.js";
import { pinLabel } from "../look/look.js";
import type { Candidate } from "./candidate.js";
import type { Explanation } from "./explanation.js";
import { clockCandidates } from "./other-clocks.js";
import { writeSlips } from "./write-slips.js";

/** So many are shown: more is no help at the bench. */
export const MOST_EXPLANATIONS = 6;

/** A candidate at the edge of the reading is as unlikely as a slip larger by this (common practice, no source). */
const MISS_WEIGHT = 1.5;

/** So many states of a pin are looked around. */
const MOST_GROUNDS = 4;

export interface ExplainOptions {
  /** Without a sketch: whole settings of the pin's timers as well, and no lines of a sketch. */
  readonly settings: boolean;
  /** What the prediction itself is called where it is to be named as well, as that which needs no slip. */
  readonly itself?: string;
}

export function explain(
  analysis: Analysis,
  reading: ReadingComment,
  pin: PinHistory,
  options: ExplainOptions = { settings: false },
): readonly Explanation[] {
  const found = new Map<string, { readonly candidate: Candidate; readonly score: number }>();
  const spread = spreadOf(clockSpread(analysis));
  const add = (candidate: Candidate): void => {
    const miss = missOf(reading, candidate.waveform, spread);
    if (miss === null) return;
    const score = candidate.size + MISS_WEIGHT * miss;
    const before = found.get(candidate.key);
    if (before === undefined || before.score > score) found.set(candidate.key, { candidate, score });
  };
  if (options.itself !== undefined)
    for (const candidate of asItIs(analysis, reading, pin, options.itself)) add(candidate);
  for (const candidate of timerCandidates(analysis, reading, pin, options)) add(candidate);
  for (const candidate of clockCandidates(analysis, reading, pin)) add(candidate);
  if (!options.settings) for (const candidate of otherPins(analysis, reading, pin)) add(candidate);
  return [...found.values()]
    .sort((left, right) => left.score - right.score)
    .slice(0, MOST_EXPLANATIONS)
    .map(({ candidate }, index) => ({
      frequencyHz: frequencyFor(reading, candidate.waveform, spread),
      registers: Object.fromEntries(
        Object.entries(candidate.registers).map(([name, value]) => [name, reportedValue(value)]),
      ),
      slip: candidate.words,
      rank: index + 1,
      near: candidate.size < OTHER_TOP,
    }));
}

/** What the pin would give, nominal clock; of a range the part that was read. */
function frequencyFor({ frequency }: ReadingComment, { frequencyHz }: Waveform, spread: Bounds<number>): number {
  const [min, max] = [toNumber(frequencyHz!.min), toNumber(frequencyHz!.max)];
  const read = frequency === undefined ? min : frequency.value / (1 + (spread.min + spread.max) / 2);
  return Math.min(max, Math.max(min, read));
}

/**
 * How far from the middle of the reading, in units of what the reading and the clock leave open: 0 in the middle, 1 at the
 * edge; null where it does not give the reading at all.
 */
function missOf(reading: ReadingComment, waveform: Waveform, spread: Bounds<number>): number | null {
  if (waveform.kind !== "pulse" || waveform.frequencyHz === null) return null;
  const match = matchOf(reading, waveform);
  if (match.kind !== "gives") return null;
  if (match.clock !== null && (match.clock.max < spread.min || match.clock.min > spread.max)) return null;
  const middle = 1 + (spread.min + spread.max) / 2;
  const half = (spread.max - spread.min) / 2;
  const misses: number[] = [];
  const measure = (low: number, high: number, min: number, max: number, open: number): void => {
    const read = (low + high) / 2;
    const nearest = Math.min(Math.max(read, min), max);
    misses.push(Math.min(1, Math.abs(read - nearest) / ((high - low) / 2 + open)));
  };
  if (reading.frequency !== undefined) {
    const hz = { min: toNumber(waveform.frequencyHz.min) * middle, max: toNumber(waveform.frequencyHz.max) * middle };
    measure(lowest(reading.frequency), highest(reading.frequency), hz.min, hz.max, hz.max * half);
    // A sweep that passes through the reading explains little.
    if (hz.max > hz.min * 1.02) misses.push(1);
  }
  if (reading.duty !== undefined && waveform.duty !== null)
    measure(lowest(reading.duty), highest(reading.duty), toNumber(waveform.duty.min), toNumber(waveform.duty.max), 0);
  const width =
    reading.pulse === undefined
      ? null
      : widthOf(waveform, { min: toNumber(waveform.frequencyHz.min), max: toNumber(waveform.frequencyHz.max) });
  if (reading.pulse !== undefined && width !== null)
    measure(lowest(reading.pulse), highest(reading.pulse), width.min / middle, width.max / middle, width.max * half);
  return Math.max(0, ...misses);
}

/** The prediction itself. */
function* asItIs(analysis: Analysis, reading: ReadingComment, pin: PinHistory, words: string): Generator<Candidate> {
  for (const { waveform, when } of compareAnother(analysis, reading, pin).predictions) {
    const named = when === null ? words : `${words} when ${when}`;
    yield { waveform, registers: {}, words: named, size: 0, key: `itself ${when}` };
  }
}

function* timerCandidates(
  analysis: Analysis,
  reading: ReadingComment,
  pin: PinHistory,
  options: ExplainOptions,
): Generator<Candidate> {
  const states = replacedStates(analysis, reading, pin);
  if ("problem" in states) return;
  for (const { snapshots: found } of states.found.slice(0, MOST_GROUNDS)) {
    const snapshots = options.settings ? found.map((each) => anyDuty(analysis, reading, pin, each)) : found;
    for (const [index, snapshot] of snapshots.entries()) {
      const ground = groundOf(analysis, pin, snapshot);
      if (ground === null) continue;
      const present = snapshots.map((each) => each);
      for (const slip of slipsOf(analysis, reading, pin, ground, options)) {
        const changed = replaceRegisters(analysis.target.chip, ground.timer, snapshot, slip.replacements);
        if ("problem" in changed) continue;
        present[index] = changed.snapshot;
        const registers = differing(snapshot, changed.snapshot);
        if (Object.keys(registers).length === 0) continue;
        for (const waveform of pinWaveforms(analysis.target.chip, pin.port, present, analysis.target.clockHz))
          yield { waveform, registers, words: slip.words, size: slip.size, key: keyOf(registers, snapshot) };
      }
      present[index] = snapshot;
    }
  }
}

/** Without a sketch nobody knows the duty. */
function anyDuty(analysis: Analysis, reading: ReadingComment, pin: PinHistory, snapshot: TimerSnapshot): TimerSnapshot {
  const timer = timerOf(analysis.target.chip, snapshot.timer);
  const held = new Set(reading.registers.map(({ name }) => name.toUpperCase()));
  const units = timer.channels.filter(({ unit, compare }) => pin.units.includes(unit) && !held.has(compare));
  const any = anyValue(timer.bits);
  return {
    ...snapshot,
    channels: snapshot.channels.map((channel) =>
      units.some(({ unit }) => unit === channel.unit)
        ? { ...channel, alternatives: channel.alternatives.map((each) => ({ ...each, compare: any })) }
        : channel,
    ),
  };
}

function keyOf(registers: Readonly<Record<string, RegisterValue>>, snapshot: TimerSnapshot): string {
  const whole = { ...snapshot.registers, ...registers };
  return JSON.stringify(Object.entries(whole).map(([name, { min, max, values }]) => [name, values ?? [min, max]]));
}

function groundOf(analysis: Analysis, pin: PinHistory, snapshot: TimerSnapshot): SlipGround | null {
  const { chip } = analysis.target;
  const timer = timerOf(chip, snapshot.timer);
  const unit = timer.channels.find((channel) => pin.units.includes(channel.unit))?.unit;
  return unit === undefined ? null : { timer, snapshot, others: chip.timers.filter((each) => each !== timer), unit };
}

function slipsOf(
  analysis: Analysis,
  reading: ReadingComment,
  pin: PinHistory,
  ground: SlipGround,
  options: ExplainOptions,
): readonly Slip[] {
  const { chip, clockHz } = analysis.target;
  const nominal = nominalBounds(reading, clockSpread(analysis));
  if (options.settings) {
    const held = new Set(reading.registers.map(({ name }) => name.toUpperCase()));
    return nominal === null ? [] : wholeSettings(ground, chip, pin.port, clockHz, nominal, held);
  }
  const still = !pin.signals.some(({ kind, regime }) => kind === "pulse" && regime === "running");
  const shape = reading.duty !== undefined || reading.pulse !== undefined || still;
  return [
    ...controlSlips(ground),
    // The connection of the output moves no frequency.
    ...(shape ? connectionSlips(ground) : []),
    ...topSlips(ground),
    ...(shape ? compareSlips(ground) : []),
    ...(nominal === null ? [] : otherTops(ground, chip, pin.port, clockHz, nominal)),
    ...writeSlips(analysis, ground),
  ];
}

/** The nominal frequencies that would be read as this one. */
function nominalBounds({ frequency }: ReadingComment, spread: Bounds<number>): WantedRate | null {
  if (frequency === undefined || lowest(frequency) <= 0) return null;
  const middle = frequency.value / (1 + (spread.min + spread.max) / 2);
  return { min: lowest(frequency) / (1 + spread.max), max: highest(frequency) / (1 + spread.min), middle };
}

/** The probe on another pin: its neighbour on the timer, or any other that gives what was read. */
function* otherPins(analysis: Analysis, reading: ReadingComment, pin: PinHistory): Generator<Candidate> {
  for (const other of analysis.pins) {
    if (other.port === pin.port) continue;
    const neighbour = other.timer !== null && other.timer === pin.timer;
    const size = neighbour ? 2 : 3;
    const words = `${pinLabel(analysis, other)} measured in place of ${pinLabel(analysis, pin)}`;
    for (const waveform of signalsWith(analysis, reading, other)) {
      yield { waveform, registers: {}, words, size, key: `pin ${other.port}` };
    }
  }
  const setup = pin.signals.filter((signal) => signal.regime === "setup");
  if (pin.signals.some((signal) => signal.regime === "running") && reading.registers.length === 0)
    for (const waveform of setup)
      yield { waveform, registers: {}, words: "what the pin does during setup", size: 2.5, key: "setup" };
}

function signalsWith(analysis: Analysis, reading: ReadingComment, pin: PinHistory): readonly Waveform[] {
  if (reading.registers.length === 0) return pin.signals.filter((signal) => signal.regime === "running");
  const states = replacedStates(analysis, reading, pin);
  if ("problem" in states) return [];
  const { chip, clockHz } = analysis.target;
  return states.found
    .slice(0, MOST_GROUNDS)
    .flatMap(({ snapshots }) => pinWaveforms(chip, pin.port, snapshots, clockHz));
}

/** Registers of explanations hold few values: those of one state. */
function reportedValue(value: RegisterValue): ReportedRegister {
  const values = value.values ?? [value.min, value.max];
  return { values: values.slice(0, 16) };
}
