/** What a pin gives, taken together over the states that a want judges: nominal, and over the clock's tolerance. */
import type { ClockSpread } from "../clock-spread.js";
import { toNumber } from "../fraction.js";
import { type Bounds, type Waveform, withoutHalves } from "../signal.js";

export interface Given {
  /** Of all pulses; null where there is none whose frequency is known. */
  readonly frequencyHz: Bounds<number> | null;
  readonly worstHz: Bounds<number> | null;
  /** Constant levels count as 0 and 1; null where a duty or a level is not known, or there is neither. */
  readonly duty: Bounds<number> | null;
  /** High time of the pulses, in seconds. */
  readonly widthSeconds: Bounds<number> | null;
  readonly steps: Bounds<number> | null;
  /** Levels at which the pin rests; null: one that is not known. */
  readonly rests: readonly ("low" | "high" | null)[];
}

export function givenBy(all: readonly Waveform[], clock: ClockSpread): Given {
  const signals = withoutHalves(all);
  const pulses = signals.filter(({ kind }) => kind === "pulse");
  const rates = pulses.map(({ frequencyHz }) => numbers(frequencyHz));
  const frequencyHz = hull(rates);
  const widths = pulses.map(({ highTicks, periodTicks, frequencyHz: rate }): Bounds<number> | null => {
    if (highTicks === null || periodTicks === null || rate === null) return null;
    const tick = 1 / (toNumber(rate.max) * periodTicks.min);
    return { min: highTicks.min * tick, max: highTicks.max * tick };
  });
  const steps = pulses.map(({ steps: count }) => (count === null ? null : { min: count, max: count }));
  return {
    frequencyHz,
    worstHz:
      frequencyHz === null ? null : { min: frequencyHz.min * (1 + clock.min), max: frequencyHz.max * (1 + clock.max) },
    duty: signals.some(({ kind }) => kind === "unknown" || kind === "not driven") ? null : hull(signals.map(dutyOf)),
    widthSeconds: hull(widths),
    steps: hull(steps),
    rests: [...new Set(signals.flatMap(({ kind, level }) => (kind === "level" ? [level] : [])))],
  };
}

function dutyOf({ kind, level, duty }: Waveform): Bounds<number> | null {
  if (kind === "pulse") return numbers(duty);
  if (level === null) return null;
  return level === "low" ? { min: 0, max: 0 } : { min: 1, max: 1 };
}

function numbers(bounds: Waveform["frequencyHz"]): Bounds<number> | null {
  return bounds === null ? null : { min: toNumber(bounds.min), max: toNumber(bounds.max) };
}

/** Null where there is nothing, or one of them is not known. */
function hull(all: readonly (Bounds<number> | null)[]): Bounds<number> | null {
  const known = all.filter((each) => each !== null);
  if (known.length === 0 || known.length < all.length) return null;
  return { min: Math.min(...known.map(({ min }) => min)), max: Math.max(...known.map(({ max }) => max)) };
}
