/**
 * From the input to the duty: what each value of a knob, or of a parameter, gives at the present TOP. Exact: every input is
 * worked out for itself, by the same waveform rules as everything else.
 */
import type { ChannelFact, TimerFact } from "../../shared-model/chip.js";
import { compareFractions, type Fraction, fraction, toNumber } from "../../shared-model/fraction.js";
import { exactly, type RegisterValue } from "../../shared-model/register-value.js";
import type { Span } from "../../shared-model/span.js";
import type { ChannelAlternative, TimerSnapshot } from "../../shared-model/timer-snapshot.js";
import { channelWaveforms } from "../../shared-model/waveforms/channel-waveforms.js";
import type { Analysis, RegisterWrite, TimerState, WrittenExpression } from "../analysis.js";
import { lastingStates, ownPaths, pinLabel, pinOfUnit, unitOfPin } from "../look/look.js";
import { channelSnapshot, counts, isPwm, modeOf, topBounds } from "../look/timer-view.js";
import { statesMadeBy } from "./pin-facts.js";

export interface DutyPoint {
  readonly input: number;
  /** What is written for it, before it is cut to the register's width. */
  readonly value: number;
  /** 0 and 1 are constant levels; null where the level is not known. */
  readonly duty: Fraction | null;
  /** The timer drives the pin, or the core has left the timer and holds the port at a level. */
  readonly by: "timer" | "port";
}

export interface DutyCurve {
  /** `D9` */
  readonly label: string;
  /** The write or call. */
  readonly span: Span;
  /** A reading of the outside, or the written value itself where it comes from elsewhere. */
  readonly input: "reading" | "value";
  /** One for each input, ascending. */
  readonly points: readonly DutyPoint[];
  readonly top: number;
  /** Different duties that occur, and how many the compare register can give at this TOP. */
  readonly used: number;
  readonly steps: number;
  /** Inputs at either end that add nothing: the duty is there already, and stays. */
  readonly deadLow: number;
  readonly deadHigh: number;
  /** Neighbouring inputs between which the duty leaps, where it is even otherwise. */
  readonly jumps: readonly { readonly from: DutyPoint; readonly to: DutyPoint }[];
  /** Inputs whose value does not fit the register: it is cut, and the duty starts anew. */
  readonly wraps: readonly number[];
}

/** Inputs of a curve, at least and at most. */
const LEAST_INPUTS = 3;
const MOST_INPUTS = 1024;

/** Every duty write of the sketch that has one, in the order of the text. */
export function dutyCurves(analysis: Analysis): readonly DutyCurve[] {
  const own = ownPaths(analysis);
  const order = [...own];
  return analysis.writes
    .filter((write) => own.has(write.span.path))
    .flatMap((write) => curveOfWrite(analysis, write) ?? [])
    .sort((a, b) => order.indexOf(a.span.path) - order.indexOf(b.span.path) || a.span.start - b.span.start);
}

/** The curve of the write or call whose text holds the place. */
export function dutyCurveAt(analysis: Analysis, path: string, offset: number): DutyCurve | null {
  for (const write of analysis.writes) {
    const { span } = write;
    if (span.path !== path || offset < span.start || offset > span.end) continue;
    const curve = curveOfWrite(analysis, write);
    if (curve !== null) return curve;
  }
  return null;
}

const made = new WeakMap<RegisterWrite, DutyCurve | null>();

/** Null for anything but a duty that is worked out of one input and told at one known TOP. */
export function curveOfWrite(analysis: Analysis, write: RegisterWrite): DutyCurve | null {
  const present = made.get(write);
  if (present !== undefined) return present;
  const curve = makeCurve(analysis, write);
  made.set(write, curve);
  return curve;
}

function makeCurve(analysis: Analysis, write: RegisterWrite): DutyCurve | null {
  const unit = unitOf(analysis, write);
  if (unit === null) return null;
  const { timer, channel, byCore } = unit;
  const inputs = inputsOf(analysis, write, byCore);
  const pin = pinOfUnit(analysis, channel.unit);
  if (inputs === null || pin === undefined) return null;
  const setting = settingOf(analysis, write, timer, channel, byCore);
  if (setting === null) return null;
  const duties = new Map<number, Fraction | null>();
  const points = inputs.points.map(([input, value]): DutyPoint => {
    // The core writes the port and clears the upper COM bit; a lower one that is set stays.
    if (byCore && (value === 0 || value === 255)) {
      const way = {
        com: exactly(setting.com & 1, 2),
        compare: exactly(0, timer.bits),
        output: true,
        high: value === 255,
      };
      const duty = dutyOf(analysis, timer, channel, setting, way);
      return { input, value, duty, by: (setting.com & 1) === 0 ? "port" : "timer" };
    }
    const stored = storedOf(value, timer, setting);
    let duty = duties.get(stored);
    if (duty === undefined) {
      const way = { com: exactly(setting.com, 2), compare: exactly(stored, timer.bits), output: true, high: null };
      duty = dutyOf(analysis, timer, channel, setting, way);
      duties.set(stored, duty);
    }
    return { input, value, duty, by: "timer" };
  });
  return {
    label: pinLabel(analysis, pin),
    span: write.span,
    input: inputs.kind,
    points,
    top: setting.top,
    used: new Set(points.flatMap(({ duty }) => (duty === null ? [] : [key(duty)]))).size,
    steps: setting.top + 1,
    deadLow: dead(points),
    deadHigh: dead([...points].reverse()),
    jumps: jumpsOf(points),
    wraps: points.flatMap(({ input, value, by }) =>
      by === "timer" && (value < 0 || value > setting.mask) ? [input] : [],
    ),
  };
}

interface Unit {
  readonly timer: TimerFact;
  readonly channel: ChannelFact;
  /** Through analogWrite, which has its own way with 0 and 255. */
  readonly byCore: boolean;
}

function unitOf(analysis: Analysis, write: RegisterWrite): Unit | null {
  for (const timer of analysis.target.chip.timers) {
    const channel = timer.channels.find((candidate) => candidate.compare === write.register);
    if (channel === undefined) continue;
    const call = analysis.calls.find(
      ({ name, span }) => name === "analogWrite" && span.path === write.span.path && span.start === write.span.start,
    );
    if (call === undefined) return write.operator === "core" ? null : { timer, channel, byCore: false };
    // One of several pins: which value goes to which is not told.
    const meant = call.pins.length === 1 ? unitOfPin(analysis, call.pins[0]!) : undefined;
    return meant?.channel === channel ? { timer, channel, byCore: true } : null;
  }
  return null;
}

interface Inputs {
  readonly kind: DutyCurve["input"];
  readonly points: readonly (readonly [input: number, value: number])[];
}

/** What is written for each reading; for values that come from elsewhere, each possible value for itself. */
function inputsOf(analysis: Analysis, write: RegisterWrite, byCore: boolean): Inputs | null {
  const course = write.reach?.course ?? null;
  if (course !== null) {
    if (course.values.length < LEAST_INPUTS) return null;
    return { kind: "reading", points: course.values.map((value, at) => [course.low + at, value] as const) };
  }
  // A value that depends on a reading in more than one way has no curve: the same value may come from anywhere.
  if (write.reach !== null && write.reach.readings > 0) return null;
  const argument = byCore
    ? analysis.calls.find(({ name, span }) => name === "analogWrite" && span.start === write.span.start)?.arguments[1]
    : undefined;
  const value = byCore ? (argument?.value ?? null) : write.asked;
  const expression = byCore ? (argument?.expression ?? null) : write.expression;
  if (value === null || expression === null || !isPlain(expression)) return null;
  const values = valuesOf(value);
  return values === null ? null : { kind: "value", points: values.map((each) => [each, each] as const) };
}

/** A parameter or variable by its name, alone or cast: what is worked out of several things has no one input. */
function isPlain(expression: WrittenExpression): boolean {
  if (expression.kind === "cast") return expression.operands.length === 1 && isPlain(expression.operands[0]!);
  return expression.kind === "name";
}

function valuesOf({ min, max, values }: RegisterValue): readonly number[] | null {
  const size = values?.length ?? max - min + 1;
  if (size < LEAST_INPUTS || size > MOST_INPUTS) return null;
  return values ?? Array.from({ length: size }, (_, at) => min + at);
}

interface Setting {
  readonly snapshot: TimerSnapshot;
  readonly com: number;
  readonly top: number;
  /** Bits that a compare register keeps; all where the mode cuts none. */
  readonly mask: number;
}

/** The one setting under which the write takes effect; null where there are several, or none that gives a duty. */
function settingOf(
  analysis: Analysis,
  write: RegisterWrite,
  timer: TimerFact,
  channel: ChannelFact,
  byCore: boolean,
): Setting | null {
  const after = statesMadeBy(analysis, timer.number, write.span);
  const states: readonly TimerState[] = after.length > 0 ? after : lastingStates(analysis, timer.number);
  const found = new Map<string, Setting>();
  for (const { snapshot } of states) {
    const mode = modeOf(timer, snapshot);
    if (mode === undefined || !isPwm(mode) || !counts(timer, snapshot)) return null;
    // Where the register is TOP, its value moves the frequency and not the duty.
    if (mode.top.kind === "compareA" && channel === timer.channels[0]) return null;
    const top = topBounds(timer, mode, snapshot);
    if (top === null || top.min !== top.max || top.min === 0) return null;
    for (const com of outputSettings(snapshot, channel, byCore)) {
      // The 16-bit block keeps only the bits of a fixed TOP (see "Masked compare" in DEVELOPERS).
      const mask = timer.bits === 16 && mode.top.kind === "fixed" ? mode.top.value : 2 ** timer.bits - 1;
      found.set(`${mode.select} ${top.min} ${com}`, { snapshot, com, top: top.min, mask });
    }
  }
  const [only] = found.values();
  return found.size === 1 ? only! : null;
}

/** Every connected output setting; analogWrite sets the upper bit and leaves the lower. */
function outputSettings(snapshot: TimerSnapshot, channel: ChannelFact, byCore: boolean): readonly number[] {
  const ways = channelSnapshot(snapshot, channel.unit)?.alternatives ?? [];
  const settings = ways.flatMap(({ com }) => com.values ?? (com.min === com.max ? [com.min] : [0, 1, 2, 3]));
  const connected = byCore ? settings.map((com) => com | 2) : settings.filter((com) => com > 0);
  return [...new Set(connected)];
}

function storedOf(value: number, timer: TimerFact, { mask }: Setting): number {
  const width = 2 ** timer.bits;
  return (((value % width) + width) % width) & mask;
}

function dutyOf(
  analysis: Analysis,
  timer: TimerFact,
  channel: ChannelFact,
  { snapshot }: Setting,
  way: ChannelAlternative,
): Fraction | null {
  const alone: TimerSnapshot = {
    ...snapshot,
    channels: [
      ...snapshot.channels.filter(({ unit }) => unit !== channel.unit),
      { unit: channel.unit, alternatives: [way] },
    ],
  };
  const waves = channelWaveforms(analysis.target.chip, timer, alone, channel, analysis.target.clockHz);
  const duties = new Map(
    waves.map(({ kind, duty, level }) => {
      if (kind === "pulse" && duty !== null && compareFractions(duty.min, duty.max) === 0)
        return [key(duty.min), duty.min];
      const constant = kind === "level" && level !== null ? fraction(level === "high" ? 1 : 0) : null;
      return [key(constant), constant];
    }),
  );
  const [only = null] = duties.values();
  return duties.size === 1 ? only : null;
}

function key(duty: Fraction | null): string {
  return duty === null ? "?" : `${toNumber(duty)}`;
}

/**
 * Points from the start on that give the same, but for the innermost: that one is the end of the live travel, the others only
 * repeat it. A constant level that is not known goes with the one beside it.
 */
function dead(points: readonly DutyPoint[]): number {
  const ends = points.map(({ duty }) => (duty === null ? null : toNumber(duty)));
  const end = ends.find((share) => share !== null);
  const constant = end === 0 || end === 1;
  const live = ends.findIndex((share) => share !== end && !(constant && share === null));
  return Math.max(0, (live < 0 ? points.length : live) - 1);
}

/** A leap is more than twice and a half of what neighbours usually differ by. */
function jumpsOf(points: readonly DutyPoint[]): DutyCurve["jumps"] {
  const moves = points.flatMap((to, at) => {
    const from = points[at - 1];
    if (from === undefined || from.duty === null || to.duty === null) return [];
    const size = Math.abs(toNumber(to.duty) - toNumber(from.duty));
    return size === 0 ? [] : [{ from, to, size }];
  });
  if (moves.length < LEAST_INPUTS) return [];
  const sizes = moves.map(({ size }) => size).sort((a, b) => a - b);
  const usual = sizes[Math.floor(sizes.length / 2)]!;
  return moves.filter(({ size }) => size > 2.5 * usual).map(({ from, to }) => ({ from, to }));
}
