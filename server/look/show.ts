/** Numbers as the trade reads them. Rounds for the eye only; never used for judging. */
import { type Fraction, toNumber } from "../../shared-model/fraction.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { Bounds } from "../../shared-model/signal.js";

/** `980.392 Hz`, `25 kHz`, `1 MHz`: up to six significant digits, no trailing zeros. */
export function showHz(value: Fraction | number): string {
  const hz = typeof value === "number" ? value : toNumber(value);
  if (hz >= 1e6) return `${digits(hz / 1e6)} MHz`;
  if (hz >= 1e4) return `${digits(hz / 1e3)} kHz`;
  return `${digits(hz)} Hz`;
}

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

/** `25 %`, `0.392 %`: up to three significant digits below 99.9 %, never rounded up to 100. */
export function showShare(value: Fraction | number): string {
  const share = (typeof value === "number" ? value : toNumber(value)) * 100;
  const shown = digits(share, 3);
  if (share < 100 && Number(shown) >= 100) return `${digits(Math.floor(share * 1000) / 1000, 6)} %`;
  return `${shown} %`;
}

export function showShareBounds(bounds: Bounds<Fraction>): string {
  const low = showShare(bounds.min);
  const high = showShare(bounds.max);
  return low === high ? low : `${low.slice(0, -2)}..${high}`;
}

/** `1 s`, `4.096 ms`, `62.5 ns`. */
export function showSeconds(seconds: number): string {
  if (seconds >= 1) return `${digits(seconds, 4)} s`;
  if (seconds >= 1e-3) return `${digits(seconds * 1e3, 4)} ms`;
  if (seconds >= 1e-6) return `${digits(seconds * 1e6, 4)} µs`;
  return `${digits(seconds * 1e9, 4)} ns`;
}

/** A factor such as `64`, `0.998`. */
export function showFactor(value: number): string {
  return digits(value, 3);
}

/** Up to `count` significant digits (whole numbers are kept whole), no trailing zeros, no exponent. */
export function digits(value: number, count = 6): string {
  if (value === 0) return "0";
  const whole = Math.floor(Math.log10(Math.abs(value))) + 1;
  const decimals = Math.max(0, count - whole);
  return trim(value.toFixed(Math.min(decimals, 12)));
}

function trim(text: string): string {
  return text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
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

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
}

export function either(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`;
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

/** `980..1020 Hz` from plain numbers, both in the unit of the larger. */
export function showBoundsHz(bounds: Bounds<number>): string {
  const high = showHz(bounds.max);
  const unit = high.slice(high.lastIndexOf(" "));
  const factor = unit === " MHz" ? 1e6 : unit === " kHz" ? 1e3 : 1;
  return bounds.min === bounds.max ? high : `${digits(bounds.min / factor)}..${high}`;
}
