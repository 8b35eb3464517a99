/**
 * One bench reading beside one waveform: whether the waveform could give it, and for which clock errors. Pure arithmetic; which
 * waveforms a pin has is the caller's business.
 */
import { toNumber } from "../fraction.js";
import type { Bounds, Waveform } from "../signal.js";
import type { ReadingComment, ReadValue } from "../wants/comment.js";

/** What a reading says, without where it stands. */
export type Reading = Pick<ReadingComment, "frequency" | "duty" | "pulse">;

/**
 * `clock`: the relative clock errors at which the waveform gives the reading; null where the reading says nothing of the clock
 * (a duty alone, a constant level) and the waveform gives it at any.
 */
export type Match =
  | { readonly kind: "gives"; readonly clock: Bounds<number> | null }
  | { readonly kind: "differs" }
  /** The waveform is not known well enough to tell; the reason. */
  | { readonly kind: "open"; readonly because: string };

const DIFFERS: Match = { kind: "differs" };

export function matchOf(reading: Reading, waveform: Waveform): Match {
  switch (waveform.kind) {
    case "unknown":
      return { kind: "open", because: waveform.because ?? "the signal is not known" };
    case "not driven":
      return isSilent(reading) && reading.duty === undefined ? { kind: "gives", clock: null } : DIFFERS;
    case "level": {
      if (!isSilent(reading)) return DIFFERS;
      const levels = waveform.level === null ? [0, 1] : [waveform.level === "high" ? 1 : 0];
      const { duty } = reading;
      const fits = duty === undefined || levels.some((level) => holds(duty, level, level));
      return fits ? { kind: "gives", clock: null } : DIFFERS;
    }
    case "pulse":
      return pulseMatch(reading, waveform);
  }
}

/** No pulse was read: nothing but a duty, or a frequency of nothing. A pulse width is never that of a level. */
function isSilent(reading: Reading): boolean {
  if (reading.pulse !== undefined) return false;
  return reading.frequency === undefined || lowest(reading.frequency) <= 0;
}

function pulseMatch(reading: Reading, waveform: Waveform): Match {
  const { frequency, duty, pulse } = reading;
  if (duty !== undefined && waveform.duty !== null) {
    if (!holds(duty, toNumber(waveform.duty.min), toNumber(waveform.duty.max))) return DIFFERS;
  }
  if (waveform.frequencyHz === null || (duty !== undefined && waveform.duty === null))
    return { kind: "open", because: waveform.because ?? "how often it pulses is not known" };
  const clocks: Bounds<number>[] = [];
  const hz = numbers(waveform.frequencyHz);
  if (frequency !== undefined) {
    if (highest(frequency) <= 0) return DIFFERS;
    clocks.push({ min: lowest(frequency) / hz.max - 1, max: highest(frequency) / hz.min - 1 });
  }
  if (pulse !== undefined) {
    const width = widthOf(waveform, hz);
    if (width === null) return { kind: "open", because: "how wide its pulses are is not known" };
    // A fast clock makes pulses short.
    const longest = lowest(pulse) <= 0 ? Number.POSITIVE_INFINITY : width.max / lowest(pulse) - 1;
    clocks.push({ min: width.min / highest(pulse) - 1, max: longest });
  }
  if (clocks.length === 0) return { kind: "gives", clock: null };
  const both = meet(clocks[0]!, clocks[1] ?? clocks[0]!);
  return both === null ? DIFFERS : { kind: "gives", clock: both };
}

/** Seconds high, nominal clock. */
export function widthOf(waveform: Waveform, hz: Bounds<number>): Bounds<number> | null {
  const { highTicks, periodTicks } = waveform;
  if (highTicks === null || periodTicks === null) return null;
  // The highest frequency belongs to the shortest period: the clock that the ticks count follows from both.
  const tick = 1 / (hz.max * periodTicks.min);
  return { min: highTicks.min * tick, max: highTicks.max * tick };
}

/** Where both hold; null where they do not meet. */
export function meet(left: Bounds<number>, right: Bounds<number>): Bounds<number> | null {
  const min = Math.max(left.min, right.min);
  const max = Math.min(left.max, right.max);
  return min <= max ? { min, max } : null;
}

export function numbers(bounds: NonNullable<Waveform["frequencyHz"]>): Bounds<number> {
  return { min: toNumber(bounds.min), max: toNumber(bounds.max) };
}

/** Decimal digits are not exact in binary: a value on the very edge of a reading lies inside it. */
const ROUNDING = 1e-12;

export function lowest({ value, uncertainty }: ReadValue): number {
  return value - uncertainty - Math.abs(value) * ROUNDING;
}

export function highest({ value, uncertainty }: ReadValue): number {
  return value + uncertainty + Math.abs(value) * ROUNDING;
}

function holds(read: ReadValue, min: number, max: number): boolean {
  return highest(read) >= min && lowest(read) <= max;
}
