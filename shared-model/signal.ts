/** What one pin puts out in one regime and one timer state. */
import type { Fraction } from "./fraction.js";

export type Regime = "setup" | "running";
export type SignalKind = "pulse" | "level" | "not driven" | "unknown";
export type Driver = "timer" | "port" | "interrupt" | "software";

export interface Bounds<T> {
  readonly min: T;
  readonly max: T;
}

/**
 * A signal as the waveform rules give it, before regime, condition and cause are added.
 * For a pulse all of frequency, duty, highTicks and periodTicks are present; 0 % and 100 % are levels, never pulses.
 */
export interface Waveform {
  readonly kind: SignalKind;
  /** In a level: which one; null = constant, but not known which. */
  readonly level: "low" | "high" | null;
  readonly driver: Driver | null;
  readonly frequencyHz: Bounds<Fraction> | null;
  /** High fraction of the period, 0 < duty < 1. */
  readonly duty: Bounds<Fraction> | null;
  /** CPU clock cycles high per period. */
  readonly highTicks: Bounds<number> | null;
  /** CPU clock cycles per period. */
  readonly periodTicks: Bounds<number> | null;
  /** How many different duties the compare register can give at this TOP, both levels included where reachable. */
  readonly steps: number | null;
  readonly top: Bounds<number> | null;
  readonly prescaler: number | null;
  /** Why a thing is unknown, a level, or has no pulse: one plain clause, or null where nothing needs saying. */
  readonly because: string | null;
}

/** A pulse that the program itself makes, by writing ports. */
export function isBySoftware(signal: Pick<Waveform, "kind" | "driver">): boolean {
  return signal.kind === "pulse" && (signal.driver === "software" || signal.driver === "interrupt");
}

/** Without the levels between which the program switches, where the times of its pulses are known: they are halves of these. */
export function withoutHalves<T extends Pick<Waveform, "kind" | "driver"> & { readonly frequencyHz: unknown }>(
  signals: readonly T[],
): readonly T[] {
  if (!signals.some((signal) => isBySoftware(signal) && signal.frequencyHz !== null)) return signals;
  return signals.filter((signal) => signal.kind !== "level" || signal.driver !== "port");
}
