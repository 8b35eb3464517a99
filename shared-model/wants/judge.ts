/**
 * Whether a pin's signals meet a want, at the nominal clock and over the clock's tolerance. Pure arithmetic on waveforms;
 * which signals belong to the want (regime, function) is the caller's choice.
 */
import { type ClockSpread, showSpread, spreadOf } from "../clock-spread.js";
import { toNumber } from "../fraction.js";
import { isBySoftware, type Waveform, withoutHalves } from "../signal.js";
import type { Range, WantedIdle, WantedSignal } from "./comment.js";
import { filterWords } from "./filter-words.js";
import type { Judgement, Verdict } from "./verdict.js";

export type { Judgement, Verdict } from "./verdict.js";

/** A signal as the analysis gives it; `when` is the condition of its state, where there is one. */
export type JudgedSignal = Waveform & { readonly when?: string | null };

interface Part {
  readonly met: Verdict;
  readonly reason: string;
}

export interface JudgeOptions {
  /** What feeds the chip; null where nobody said. */
  readonly supplyVolts?: number | null;
}

/**
 * Judges every demand of the want against all the signals, which are states that all occur: the worst one counts.
 * `clock` is what the oscillator may be off by: a tolerance to both sides (0.005 = ±0.5 %), or a spread that was estimated. A
 * pin without a running pulse is `no`, but where the level at which it rests is all that is asked.
 */
export function judgeWant(
  want: WantedSignal,
  all: readonly JudgedSignal[],
  clock: number | ClockSpread,
  { supplyVolts = null }: JudgeOptions = {},
): Judgement {
  const judgement = judgeDemands(want, all, spreadOf(clock));
  const beside = [
    ...(want.idle === undefined
      ? []
      : [`from reset until setup drives it the pin floats: only a pull resistor holds it ${want.idle.level}`]),
    ...(want.filter === undefined ? [] : [filterWords(want.filter, all, supplyVolts) ?? []].flat()),
  ];
  return beside.length === 0 ? judgement : { ...judgement, reasons: [...judgement.reasons, ...beside], beside };
}

function judgeDemands(want: WantedSignal, all: readonly JudgedSignal[], spread: ClockSpread): Judgement {
  const untimed = all.filter(isUntimed);
  // Levels that the program writes may be halves of pulses whose times nobody knows.
  const signals = withoutHalves(all).filter(
    (signal) => !isUntimed(signal) && (untimed.length === 0 || signal.kind !== "level" || signal.driver !== "port"),
  );
  const pulses = signals.filter((signal) => signal.kind === "pulse");
  const parts: Part[] = [];
  for (const signal of untimed) {
    const why = signal.because ?? "software makes its pulses";
    parts.push({ met: "unknown", reason: withCondition(`how often the pin pulses is not known: ${why}`, signal) });
  }
  for (const signal of signals.filter((candidate) => candidate.kind === "unknown")) {
    parts.push({
      met: "unknown",
      reason: withCondition(`the signal is not known: ${signal.because ?? "no reason given"}`, signal),
    });
  }
  const levels = signals.filter((signal) => signal.kind === "level");
  const idleAlone = want.idle !== undefined && asksNoPulse(want);
  if (pulses.length === 0 && !(idleAlone && levels.length > 0)) {
    if (parts.length > 0) {
      return verdictOf(parts);
    }
    return { met: "no", reasons: [noPulse(signals)] };
  }
  for (const signal of signals.filter((candidate) => candidate.kind === "not driven")) {
    parts.push({
      met: "no",
      reason: withCondition(`the pin is not driven: ${signal.because ?? "it is an input"}`, signal),
    });
  }
  if (want.idle !== undefined) {
    parts.push(...judgeIdle(want.idle, levels));
  }
  // Where the want says at which level the pin rests, a constant pin is judged by that alone.
  const moving = want.idle === undefined ? signals : signals.filter((signal) => signal.kind !== "level");
  if (want.frequency !== undefined) {
    parts.push(...pulses.map((signal) => judgeFrequency(want.frequency!, signal, spread)));
  }
  if (want.duty !== undefined) {
    parts.push(...moving.flatMap((signal) => judgeDuty(want.duty!, signal)));
  }
  if (want.reach !== undefined) {
    parts.push(judgeReach(want.reach, [...signals, ...untimed]));
  }
  if (want.pulse !== undefined) {
    parts.push(...moving.flatMap((signal) => judgeWidth(want.pulse!, signal, spread)));
  }
  if (want.steps !== undefined) {
    parts.push(...pulses.map((signal) => judgeSteps(want.steps!.steps, signal)));
  }
  if (parts.length === 0) {
    parts.push({ met: "yes", reason: "the pin gives a pulse, and nothing more is asked" });
  }
  return verdictOf(parts);
}

function asksNoPulse({ frequency, duty, reach, pulse, steps }: WantedSignal): boolean {
  return [frequency, duty, reach, pulse, steps].every((demand) => demand === undefined);
}

/** Wherever the pin is constant it must be that level. */
function judgeIdle({ level }: WantedIdle, levels: readonly JudgedSignal[]): Part[] {
  if (levels.length === 0) {
    return [{ met: "yes", reason: `the pin is never constant, so it never rests ${level === "low" ? "high" : "low"}` }];
  }
  return levels.map((signal): Part => {
    const why = signal.because === null ? "" : `, because ${signal.because}`;
    if (signal.level === null) {
      return { met: "unknown", reason: withCondition(`the pin rests at a level that is not known${why}`, signal) };
    }
    const relation = signal.level === level ? "" : `, ${level} is wanted`;
    return {
      met: signal.level === level ? "yes" : "no",
      reason: withCondition(`the pin rests ${signal.level}${relation}${why}`, signal),
    };
  });
}

/** Pulses that software makes at times that are not known. */
function isUntimed(signal: JudgedSignal): boolean {
  return signal.kind === "pulse" && signal.frequencyHz === null;
}

const gravest: readonly Verdict[] = ["no", "unknown", "marginal", "yes"];

/** The gravest verdict and the reasons for it; for `yes` all reasons. */
function verdictOf(parts: readonly Part[]): Judgement {
  const met = gravest.find((verdict) => parts.some((part) => part.met === verdict)) ?? "yes";
  const reasons = [...new Set(parts.filter((part) => part.met === met).map((part) => part.reason))];
  return { met, reasons };
}

function noPulse(signals: readonly JudgedSignal[]): string {
  const levels = [...new Set(signals.filter((signal) => signal.kind === "level").map((signal) => signal.level))];
  const because = signals.find((signal) => signal.because !== null)?.because;
  const what =
    signals.length === 0 || levels.length === 0
      ? "the pin is not driven"
      : levels.length === 1 && levels[0] !== null
        ? `the pin is constantly ${levels[0]}`
        : "the pin is constant";
  return `no pulse: ${what}${because === undefined ? "" : ` (${because})`}`;
}

function judgeFrequency(wanted: Range, signal: JudgedSignal, spread: ClockSpread): Part {
  const min = toNumber(signal.frequencyHz!.min);
  const max = toNumber(signal.frequencyHz!.max);
  const is = showRange(min, max, showHz);
  const asked = showRange(wanted.min, wanted.max, showHz);
  if (!within(min, max, wanted)) {
    if (mayLieInside(min, max, wanted, signal))
      return {
        met: "unknown",
        reason: withCondition(`somewhere in ${is}, which ${asked} does not hold whole`, signal),
      };
    return { met: "no", reason: withCondition(`${is} is outside ${asked}`, signal) };
  }
  const slow = min * (1 + spread.min);
  const fast = max * (1 + spread.max);
  const worst = showRange(slow, fast, showHz);
  const over = spread.readings === null ? "the clock's tolerance" : clockWords(spread);
  return within(slow, fast, wanted)
    ? { met: "yes", reason: withCondition(`${is}, ${worst} over ${over}, is inside ${asked}`, signal) }
    : {
        met: "marginal",
        reason: withCondition(`${is} is inside ${asked}, but ${worst} over ${clockWords(spread)} is not`, signal),
      };
}

/** Constant levels count as 0 and 100 %; a level of unknown sign may be either. */
function judgeDuty(wanted: Range, signal: JudgedSignal): Part[] {
  const asked = showRange(wanted.min, wanted.max, showPercent);
  const duties = dutyOf(signal);
  if (duties === null) {
    return [];
  }
  if (signal.kind === "level") {
    const inside = duties.filter((duty) => within(duty, duty, wanted)).length;
    const name = signal.level === null ? "a constant level" : `constantly ${signal.level} (${showPercent(duties[0]!)})`;
    const why = signal.because === null ? "" : `, because ${signal.because}`;
    const met = inside === duties.length ? "yes" : inside === 0 ? "no" : "unknown";
    const relation = met === "yes" ? "inside" : met === "no" ? "outside" : "perhaps outside";
    return [{ met, reason: withCondition(`${name} is ${relation} ${asked}${why}`, signal) }];
  }
  const [min, max] = [duties[0]!, duties[duties.length - 1]!];
  const is = showRange(min, max, showPercent);
  if (!within(min, max, wanted) && mayLieInside(min, max, wanted, signal))
    return [{ met: "unknown", reason: withCondition(`duty somewhere in ${is}, not all of it in ${asked}`, signal) }];
  return within(min, max, wanted)
    ? [{ met: "yes", reason: withCondition(`duty ${is} is inside ${asked}`, signal) }]
    : [{ met: "no", reason: withCondition(`duty ${is} leaves ${asked}`, signal) }];
}

/** Least and greatest duty that the signal may have; null for a pin that is not driven or not known. */
function dutyOf(signal: JudgedSignal): number[] | null {
  switch (signal.kind) {
    case "pulse":
      return [toNumber(signal.duty!.min), toNumber(signal.duty!.max)];
    case "level":
      return signal.level === null ? [0, 1] : [signal.level === "low" ? 0 : 1];
    default:
      return null;
  }
}

/** Both ends must be attained, to the nearest step that the timer has. */
function judgeReach(wanted: Range, signals: readonly JudgedSignal[]): Part {
  if (signals.some((signal) => isBySoftware(signal) && !isUntimed(signal) && !isSteady(signal)))
    return { met: "unknown", reason: "the duty is known by bounds: whether it gets to both ends is not known" };
  const sure = signals.filter((signal) => !isUntimed(signal) && (signal.kind !== "level" || signal.level !== null));
  const duties = sure.flatMap((signal) => dutyOf(signal) ?? []);
  const halfStep = Math.max(
    0,
    ...sure.map((signal) => (signal.steps === null || signal.steps < 2 ? 0 : 0.5 / (signal.steps - 1))),
  );
  const min = Math.min(...duties);
  const max = Math.max(...duties);
  const is = showRange(min, max, showPercent);
  const asked = showRange(wanted.min, wanted.max, showPercent);
  const atLow = min <= wanted.min + halfStep + rounding;
  const atHigh = max >= wanted.max - halfStep - rounding;
  if (atLow && atHigh) {
    return { met: "yes", reason: `duty ${is} reaches both ends of ${asked}` };
  }
  const missing = [
    ...(atLow ? [] : [`never gets down to ${showPercent(wanted.min)}`]),
    ...(atHigh ? [] : [`never gets up to ${showPercent(wanted.max)}`]),
  ];
  // Whatever is not known may be what is missing: a level of unknown sign either way, a signal that is not known any way.
  if (
    signals.some(
      (signal) => signal.kind === "unknown" || isUntimed(signal) || (signal.kind === "level" && signal.level === null),
    )
  ) {
    const known = missing.map((each) => each.replace("never gets", "does not get")).join(" and ");
    return { met: "unknown", reason: `duty ${is}, as far as it is known, ${known}` };
  }
  return { met: "no", reason: `duty ${is} ${missing.join(" and ")}` };
}

/** High time per period, in seconds; a constant level has no pulse to be wide enough. */
function judgeWidth(wanted: Range, signal: JudgedSignal, spread: ClockSpread): Part[] {
  const asked = showRange(wanted.min, wanted.max, showSeconds);
  if (signal.kind === "level") {
    return [{ met: "no", reason: withCondition(`a constant level is no pulse of ${asked}`, signal) }];
  }
  if (signal.kind !== "pulse") {
    return [];
  }
  // The clock that the ticks count is the same at both ends: one over the shortest period is the highest frequency.
  const tick = 1 / (toNumber(signal.frequencyHz!.max) * signal.periodTicks!.min);
  const min = signal.highTicks!.min * tick;
  const max = signal.highTicks!.max * tick;
  const is = showRange(min, max, showSeconds);
  if (!within(min, max, wanted) && mayLieInside(min, max, wanted, signal))
    return [{ met: "unknown", reason: withCondition(`pulses somewhere in ${is}, not all of it in ${asked}`, signal) }];
  if (!within(min, max, wanted)) {
    return [{ met: "no", reason: withCondition(`pulses of ${is} leave ${asked}`, signal) }];
  }
  const short = min / (1 + spread.max);
  const long = max / (1 + spread.min);
  return within(short, long, wanted)
    ? [{ met: "yes", reason: withCondition(`pulses of ${is} are inside ${asked}`, signal) }]
    : [
        {
          met: "marginal",
          reason: withCondition(
            `pulses of ${is} are inside ${asked}, but ${showRange(short, long, showSeconds)} over ${clockWords(spread)} are not`,
            signal,
          ),
        },
      ];
}

function judgeSteps(wanted: number, signal: JudgedSignal): Part {
  if (signal.steps === null) {
    return {
      met: "unknown",
      reason: withCondition(`the number of duty steps is not known; ${wanted} are wanted`, signal),
    };
  }
  return signal.steps >= wanted
    ? { met: "yes", reason: withCondition(`${signal.steps} duty steps, ${wanted} wanted`, signal) }
    : {
        met: "no",
        reason: withCondition(
          `only ${signal.steps} duty ${signal.steps === 1 ? "step" : "steps"}, ${wanted} wanted`,
          signal,
        ),
      };
}

/** `the clock's ±0.5 %`, `the clock's +0.03..+0.11 % by 3 bench readings`. */
function clockWords(spread: ClockSpread): string {
  return `the clock's ${showSpread(spread)}`;
}

/** Bounds written in decimals are met to the last digit that a double carries. */
const rounding = 1e-9;

function within(min: number, max: number, wanted: Range): boolean {
  const slack = (bound: number) => Math.abs(bound) * rounding;
  return (
    min >= wanted.min - slack(wanted.min) &&
    (max <= wanted.max + slack(wanted.max) || wanted.max === Number.POSITIVE_INFINITY)
  );
}

/** What software makes is known by bounds: every pulse lies inside, but none need come near their ends. Where these overlap with what is wanted, it is open. */
function mayLieInside(min: number, max: number, wanted: Range, signal: JudgedSignal): boolean {
  return isBySoftware(signal) && min < max && max >= wanted.min && min <= wanted.max;
}

function isSteady(signal: JudgedSignal): boolean {
  return signal.duty !== null && toNumber(signal.duty.min) === toNumber(signal.duty.max);
}

function withCondition(reason: string, signal: JudgedSignal): string {
  return signal.when === undefined || signal.when === null ? reason : `${reason} (when ${signal.when})`;
}

function showRange(min: number, max: number, show: (value: number) => string): string {
  if (max === Number.POSITIVE_INFINITY) {
    return `${show(min)} or more`;
  }
  const [low, high] = [show(min), show(max)];
  if (low === high) {
    return low;
  }
  const unit = low.slice(low.lastIndexOf(" "));
  return high.endsWith(unit) ? `${low.slice(0, -unit.length)}..${high}` : `${low}..${high}`;
}

/** `1008.06 Hz`, `25 kHz` stays `25000 Hz`: wants compare numbers, so one unit throughout. */
function showHz(hz: number): string {
  return `${Number(hz.toPrecision(6))} Hz`;
}

function showPercent(share: number): string {
  return `${Number((share * 100).toPrecision(4))} %`;
}

function showSeconds(seconds: number): string {
  return seconds < 0.01
    ? `${Number((seconds * 1e6).toPrecision(6))} us`
    : `${Number((seconds * 1e3).toPrecision(6))} ms`;
}
