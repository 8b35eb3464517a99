/** The part of `report --format json` that the oracle reads (the contract in the design, section 6), written anew here. */

export interface Range {
  readonly min: number;
  readonly max: number;
}

export type ReportedValue =
  | { readonly values: readonly number[] }
  | { readonly min: number; readonly max: number; readonly bits: string };

export interface ReportedState {
  readonly regime: "setup" | "running";
  readonly mode: string;
  readonly when: string | null;
  readonly registers: Readonly<Record<string, ReportedValue>>;
}

export interface ReportedSignal {
  readonly regime: "setup" | "running";
  readonly kind: "pulse" | "level" | "not driven" | "unknown";
  readonly level: "low" | "high" | null;
  readonly driver: "timer" | "port" | "interrupt" | "software" | null;
  readonly frequencyHz: Range | null;
  readonly duty: Range | null;
  readonly highTicks: Range | null;
  readonly periodTicks: Range | null;
  readonly when: string | null;
}

export interface ReportedPin {
  readonly pin: string;
  readonly port: string;
  readonly units: readonly string[];
  readonly signals: readonly ReportedSignal[];
}

export interface ReportedSketch {
  readonly path: string;
  readonly clockHz: number;
  readonly complete: boolean;
  readonly gaps: readonly { readonly reason: string; readonly line?: number }[];
  readonly timers: readonly { readonly timer: number; readonly states: readonly ReportedState[] }[];
  readonly pins: readonly ReportedPin[];
}

export interface Report {
  readonly schema: number;
  readonly sketches: readonly ReportedSketch[];
}

/** Whether a register's value lies inside what is reported for it. */
export function holds(reported: ReportedValue, value: number): boolean {
  if ("values" in reported) return reported.values.includes(value);
  if (value < reported.min || value > reported.max) return false;
  const bits = reported.bits.replace(/^0b/, "");
  for (let at = 0; at < bits.length; at++) {
    const wanted = bits[bits.length - 1 - at];
    if (wanted !== "_" && wanted !== String((value >> at) & 1)) return false;
  }
  return true;
}

export function showValue(reported: ReportedValue | undefined): string {
  if (reported === undefined) return "not reported";
  if ("values" in reported) return `{${reported.values.map(hex).join(", ")}}`;
  return `${reported.min}..${reported.max} ${reported.bits}`;
}

export function hex(value: number): string {
  return `0x${value.toString(16).toUpperCase().padStart(2, "0")}`;
}
