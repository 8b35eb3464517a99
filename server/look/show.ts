/** Numbers as the trade reads them. Rounds for the eye only; never used for judging. */
import type { Fraction } from "../../shared-model/fraction.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import { digits, either, listed, showHz, showShare } from "../../shared-model/show-numbers.js";
import type { Bounds } from "../../shared-model/signal.js";

export { digits, either, listed, showFactor, showHz, showSeconds, showShare } from "../../shared-model/show-numbers.js";

export function showHzBounds(bounds: Bounds<Fraction>): string {
  const low = showHz(bounds.min);
  const high = showHz(bounds.max);
  if (low === high) return low;
  const unit = high.slice(high.lastIndexOf(" "));
  return low.endsWith(unit) ? `${low.slice(0, -unit.length)}..${high}` : `${low}..${high}`;
}

/** `16 MHz`, `8 MHz`, `32.768 kHz`. */
export function showClock(hz: number): string {
  return showHz(hz);
}

export function showShareBounds(bounds: Bounds<Fraction>): string {
  const low = showShare(bounds.min);
  const high = showShare(bounds.max);
  return low === high ? low : `${low.slice(0, -2)}..${high}`;
}

export function showHex(value: number): string {
  return `0x${(value >>> 0).toString(16).toUpperCase().padStart(2, "0")}`;
}

/** `0b00000100`; unknown bits as `_`. */
export function showBits(value: RegisterValue | number, width: number): string {
  if (typeof value === "number") return `0b${(value >>> 0).toString(2).padStart(width, "0")}`;
  let text = "";
  for (let position = width - 1; position >= 0; position -= 1) {
    const bit = 2 ** position;
    text += (value.ones & bit) !== 0 ? "1" : (value.zeros & bit) !== 0 ? "0" : "_";
  }
  return `0b${text}`;
}

/** `248`, `0..255`, `3 or 4`: decimal. */
export function showValue(value: RegisterValue): string {
  if (value.min === value.max) return String(value.min);
  if (value.values !== null && value.values.length <= 4 && !consecutive(value.values))
    return either(value.values.map(String));
  return `${value.min}..${value.max}`;
}

function consecutive(values: readonly number[]): boolean {
  return values.length > 2 && values[values.length - 1]! - values[0]! === values.length - 1;
}

/** `249..254`, `249`, `3, 5, 9 and 12`; long uneven lists by their ends. */
export function showNumbers(values: readonly number[]): string {
  if (values.length === 0) return "none";
  if (consecutive(values) || values.length > 4) return `${values[0]}..${values[values.length - 1]}`;
  return listed(values.map(String));
}

/** A mode in words: `fast PWM, TOP OCR2A`, `phase correct PWM, TOP 255`. */
export function showMode(mode: { readonly family: string }, top: string): string {
  const families: Readonly<Record<string, string>> = {
    normal: "normal mode",
    ctc: "CTC",
    fast: "fast PWM",
    "phase correct": "phase-correct PWM",
    "phase and frequency correct": "phase-and-frequency-correct PWM",
    reserved: "a reserved mode",
  };
  const name = families[mode.family] ?? mode.family;
  return mode.family === "reserved" ? name : `${name} with TOP ${top}`;
}

/** `980..1020 Hz` from plain numbers, both in the unit of the larger; `1 kHz or more` where there is no upper end. */
export function showBoundsHz(bounds: Bounds<number>): string {
  if (bounds.max === Number.POSITIVE_INFINITY) return `${showHz(bounds.min)} or more`;
  const high = showHz(bounds.max);
  const unit = high.slice(high.lastIndexOf(" "));
  const factor = unit === " MHz" ? 1e6 : unit === " kHz" ? 1e3 : 1;
  return bounds.min === bounds.max ? high : `${digits(bounds.min / factor)}..${high}`;
}
