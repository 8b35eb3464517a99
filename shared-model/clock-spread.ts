/**
 * How far the oscillator may be from its nominal frequency, and who says so: the board's table, a comment, or bench
 * readings. Nominal frequencies stay nominal; only verdicts over the whole spread use it.
 */
import type { Bounds } from "./signal.js";

/** Relative: 0.001 is a clock 0.1 % fast. */
export interface ClockSpread extends Bounds<number> {
  /** How many bench readings it was estimated from; null where it is a tolerance. */
  readonly readings: number | null;
}

/** The same to both sides: 0.005 is ±0.5 %. */
export function evenSpread(tolerance: number): ClockSpread {
  return { min: -tolerance, max: tolerance, readings: null };
}

/** What a tolerance or a spread says, as a spread. */
export function spreadOf(clock: number | ClockSpread): ClockSpread {
  return typeof clock === "number" ? evenSpread(clock) : clock;
}

/** `±0.5 %`, `+0.03..+0.11 % by 3 bench readings`. */
export function showSpread(spread: ClockSpread): string {
  if (spread.readings === null) return `±${plainPercent(spread.max)} %`;
  return `${showClockError(spread)} by ${spread.readings} bench readings`;
}

/** `+0.03..+0.11 %`, `-1.3..-0.3 %`: ends rounded outwards, so that what is shown holds what is meant. */
export function showClockError(error: Bounds<number>): string {
  const width = (error.max - error.min) * 100;
  const widest = Math.max(Math.abs(error.min), Math.abs(error.max)) * 100;
  // A tenth of the width, but never past a tenth of a part per million nor more than the size asks for.
  const finest = Math.max(width / 10, widest / 5000, 1e-5);
  const decimals = Math.min(5, Math.max(0, Math.ceil(-Math.log10(finest))));
  const unit = 10 ** decimals;
  const low = Math.floor(error.min * 100 * unit + 1e-6) / unit;
  const high = Math.ceil(error.max * 100 * unit - 1e-6) / unit;
  const shown = [signed(low, decimals), signed(high, decimals)];
  return shown[0] === shown[1] ? `${shown[0]} %` : `${shown[0]}..${shown[1]} %`;
}

function signed(percent: number, decimals: number): string {
  const text = Math.abs(percent).toFixed(decimals);
  const trimmed = text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
  return trimmed === "0" ? "0" : `${percent < 0 ? "-" : "+"}${trimmed}`;
}

function plainPercent(relative: number): string {
  return String(Number((relative * 100).toPrecision(4)));
}
