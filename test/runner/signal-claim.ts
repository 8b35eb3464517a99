/** A signal as a mark writes it, compared with a signal as the analysis gives it. */

import type { PinSignal } from "../../server/analysis.js";
import { toNumber } from "../../shared-model/fraction.js";

/** A number with the half unit of its last written digit. */
interface Written {
  readonly value: number;
  readonly half: number;
}

interface WrittenBounds {
  readonly min: Written;
  readonly max: Written;
}

export interface SignalClaim {
  readonly kind: "pulse" | "level" | "not driven" | "unknown";
  readonly level?: "low" | "high" | null;
  /** A pulse of which no times are told. */
  readonly untimed?: true;
  readonly hz?: WrittenBounds;
  /** Fractions. */
  readonly duty?: WrittenBounds;
  readonly highTicks?: WrittenBounds;
  readonly steps?: number;
  readonly top?: WrittenBounds;
  readonly prescaler?: number;
  readonly because?: string;
}

/** `pulse 980.392 Hz, duty 0.4..99.6 %, steps 249, top 248, prescaler 32`, `pulse not timed`, `low`, `high`, `constant`, `not driven`, `unknown because "…"`. */
export function readClaim(says: string): SignalClaim | null {
  const because = /because\s+"([^"]*)"/.exec(says)?.[1];
  const body = says.replace(/\s*because\s+"[^"]*"/, "").trim();
  const reason = because === undefined ? {} : { because };
  if (body === "low" || body === "high") return { kind: "level", level: body, ...reason };
  if (body === "constant") return { kind: "level", level: null, ...reason };
  if (body === "not driven") return { kind: "not driven", ...reason };
  if (body === "unknown") return { kind: "unknown", ...reason };
  if (!body.startsWith("pulse")) return null;
  const claim: { -readonly [key in keyof SignalClaim]: SignalClaim[key] } = { kind: "pulse", ...reason };
  for (const part of body.slice("pulse".length).split(",")) {
    const text = part.trim();
    if (text === "") continue;
    if (text === "not timed") {
      claim.untimed = true;
      continue;
    }
    const ranged = splitRange(text);
    if (ranged !== null && /(Hz|kHz|MHz)$/.test(text) && !text.startsWith("duty")) {
      const factor = text.endsWith("MHz") ? 1e6 : text.endsWith("kHz") ? 1e3 : 1;
      claim.hz = scaled(ranged, factor);
    } else if (text.startsWith("duty ") && ranged !== null) claim.duty = scaled(ranged, 0.01);
    else if (text.startsWith("high ") && ranged !== null) claim.highTicks = ranged;
    else if (text.startsWith("top ") && ranged !== null) claim.top = ranged;
    else if (text.startsWith("steps ")) claim.steps = Number(text.slice(6));
    else if (text.startsWith("prescaler ")) claim.prescaler = Number(text.slice(10));
    else return null;
  }
  return claim;
}

function splitRange(text: string): WrittenBounds | null {
  const match = /(\d+(?:\.\d+)?)(?:\.\.(\d+(?:\.\d+)?))?/.exec(text);
  if (match === null) return null;
  const min = written(match[1]!);
  return { min, max: match[2] === undefined ? min : written(match[2]) };
}

function written(text: string): Written {
  const decimals = text.includes(".") ? text.length - text.indexOf(".") - 1 : 0;
  return { value: Number(text), half: 0.5 * 10 ** -decimals };
}

function scaled(bounds: WrittenBounds, factor: number): WrittenBounds {
  const one = ({ value, half }: Written) => ({ value: value * factor, half: half * factor });
  return { min: one(bounds.min), max: one(bounds.max) };
}

/** Equal to the last digit that the claim writes; what the claim leaves out is not compared. */
export function equals(claim: SignalClaim, signal: PinSignal): boolean {
  if (claim.kind !== signal.kind) return false;
  if (claim.kind === "level" && claim.level !== signal.level) return false;
  if (claim.because !== undefined && !(signal.because ?? "").includes(claim.because)) return false;
  if (claim.kind !== "pulse") return true;
  if (claim.untimed === true && signal.frequencyHz !== null) return false;
  return (
    same(claim.hz, numbers(signal.frequencyHz)) &&
    same(claim.duty, numbers(signal.duty)) &&
    same(claim.highTicks, signal.highTicks) &&
    same(claim.top, signal.top) &&
    (claim.steps === undefined || claim.steps === signal.steps) &&
    (claim.prescaler === undefined || claim.prescaler === signal.prescaler)
  );
}

/** Whether the reported signal contains the claim: soundness. An unknown signal contains everything. */
export function contains(claim: SignalClaim, signal: PinSignal): boolean {
  if (signal.kind === "unknown") return true;
  if (claim.kind !== signal.kind) return false;
  if (claim.kind === "level") return signal.level === null || signal.level === claim.level;
  if (claim.kind !== "pulse") return true;
  return (
    covers(claim.hz, numbers(signal.frequencyHz)) &&
    covers(claim.duty, numbers(signal.duty)) &&
    covers(claim.highTicks, signal.highTicks)
  );
}

type Numbers = { readonly min: number; readonly max: number } | null;

function numbers(bounds: PinSignal["frequencyHz"]): Numbers {
  return bounds === null ? null : { min: toNumber(bounds.min), max: toNumber(bounds.max) };
}

function same(claim: WrittenBounds | undefined, got: Numbers): boolean {
  if (claim === undefined) return true;
  return got !== null && near(claim.min, got.min) && near(claim.max, got.max);
}

function near(claim: Written, got: number): boolean {
  return Math.abs(claim.value - got) <= claim.half * (1 + 1e-9);
}

function covers(claim: WrittenBounds | undefined, got: Numbers): boolean {
  if (claim === undefined) return true;
  return got !== null && got.min <= claim.min.value + claim.min.half && got.max >= claim.max.value - claim.max.half;
}

/** A signal in the words of a claim, for a failing test and for `npm run marks`. */
export function showSignal(signal: PinSignal): string {
  const because = signal.because === null ? "" : ` because "${signal.because}"`;
  switch (signal.kind) {
    case "level":
      return `${signal.level ?? "constant"}${because}`;
    case "not driven":
      return "not driven";
    case "unknown":
      return `unknown${because}`;
    case "pulse": {
      const hz = numbers(signal.frequencyHz);
      const duty = numbers(signal.duty);
      if (hz === null || duty === null) return "pulse not timed";
      const parts = [`${range(hz.min, hz.max, 6)} Hz`, `duty ${range(duty.min * 100, duty.max * 100, 4)} %`];
      if (signal.steps !== null) parts.push(`steps ${signal.steps}`);
      return `pulse ${parts.join(", ")}`;
    }
  }
}

function range(min: number, max: number, digits: number): string {
  const low = plain(min, digits);
  const high = plain(max, digits);
  return low === high ? low : `${low}..${high}`;
}

function plain(value: number, digits: number): string {
  if (value === 0) return "0";
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value))));
  const text = value.toFixed(Math.min(decimals, 9));
  return text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
}
