/** Numbers and lists as the trade reads them. Rounds for the eye only; never used for judging. */
import { type Fraction, toNumber } from "./fraction.js";

/** `980.392 Hz`, `25 kHz`, `1 MHz`: up to six significant digits, no trailing zeros. */
export function showHz(value: Fraction | number): string {
  const hz = typeof value === "number" ? value : toNumber(value);
  if (hz >= 1e6) return `${digits(hz / 1e6)} MHz`;
  if (hz >= 1e4) return `${digits(hz / 1e3)} kHz`;
  return `${digits(hz)} Hz`;
}

/** `25 %`, `0.392 %`: up to three significant digits below 99.9 %, never rounded up to 100. */
export function showShare(value: Fraction | number): string {
  const share = (typeof value === "number" ? value : toNumber(value)) * 100;
  const shown = digits(share, 3);
  if (share < 100 && Number(shown) >= 100) return `${digits(Math.floor(share * 1000) / 1000, 6)} %`;
  return `${shown} %`;
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

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
}

export function either(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`;
}
