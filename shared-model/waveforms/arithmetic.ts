/** The frequency of a pulse as the arithmetic that gives it, with its numbers: `16 MHz / (2 · 32 · 248)`. */
import type { Bounds, Waveform } from "../signal.js";

/**
 * The formula that the waveform's mode has, with clock, prescaler and TOP filled in; a range of TOP is shown as
 * `100..248`. Null for anything but a pulse of one prescaler. `clockDivisor` is that of CLKPR.
 *
 * Formulas (DS40002061 sections 15.7, 16.9): fast PWM N · (1 + TOP), dual slope 2 · N · TOP, CTC and toggling
 * 2 · N · (1 + TOP), toggling in a dual-slope mode 4 · N · TOP.
 */
export function arithmetic(waveform: Waveform, clockHz: number, clockDivisor = 1): string | null {
  const { periodTicks, prescaler, top } = waveform;
  if (waveform.kind !== "pulse" || periodTicks === null || prescaler === null || top === null) {
    return null;
  }
  const factor = factorOf(periodTicks.max / prescaler, top.max, waveform.steps === 1);
  if (factor === null) {
    return null;
  }
  const counts = { min: top.min + factor.plus, max: top.max + factor.plus };
  const factors = [...(factor.times === 1 ? [] : [`${factor.times}`]), `${prescaler}`, showBounds(counts)];
  const clock = clockDivisor === 1 ? showClock(clockHz) : `${showClock(clockHz)} / ${clockDivisor}`;
  return `${clock} / (${factors.join(" · ")})`;
}

/** How the period in counts comes from TOP: `times · (TOP + plus)`. */
function factorOf(counts: number, top: number, fixedDuty: boolean): { times: number; plus: 0 | 1 } | null {
  const toggling = [
    { times: 2, plus: 1 as const },
    { times: 4, plus: 0 as const },
  ];
  const steering = [
    { times: 1, plus: 1 as const },
    { times: 2, plus: 0 as const },
  ];
  const ways = fixedDuty ? [...toggling, ...steering] : [...steering, ...toggling];
  return ways.find((way) => way.times * (top + way.plus) === counts) ?? null;
}

function showBounds(bounds: Bounds<number>): string {
  return bounds.min === bounds.max ? `${bounds.min}` : `${bounds.min}..${bounds.max}`;
}

/** `16 MHz`, `32.768 kHz`, `50 Hz`: exact, in the largest unit that keeps the number at least 1. */
export function showClock(hz: number): string {
  for (const [unit, factor] of [
    ["MHz", 1e6],
    ["kHz", 1e3],
  ] as const) {
    if (hz >= factor) {
      return `${Number((hz / factor).toPrecision(12))} ${unit}`;
    }
  }
  return `${hz} Hz`;
}
