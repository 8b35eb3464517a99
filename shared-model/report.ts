/**
 * The JSON that `report`, `plan` and `explain` print: the contract of design section 6. `schema` counts up when a field
 * changes its meaning or goes; new fields may come at any time.
 */
import type { Bounds, Driver, Regime, SignalKind } from "./signal.js";
import type { Verdict } from "./wants/verdict.js";

export type { Verdict };

export type Severity = "error" | "warning" | "note";

/** A register's value as the CPU reads it back: every value where at most 16 are possible, else bounds and bits. */
export type ReportedRegister =
  | { readonly values: readonly number[] }
  | {
      readonly min: number;
      readonly max: number;
      /** `0b_______0`: 0, 1 or _ per bit. */
      readonly bits: string;
    };

/** `line` counts from 1. */
export interface ReportedPlace {
  readonly path: string;
  readonly line: number;
}

/** As in the Language Server Protocol: from 0, UTF-16, `end` exclusive. */
export interface ReportedPosition {
  readonly line: number;
  readonly character: number;
}

export interface ReportedRange {
  readonly start: ReportedPosition;
  readonly end: ReportedPosition;
}

export interface ReportedGap extends ReportedPlace {
  readonly reason: string;
  /** `timer 1`, `pin 9` */
  readonly affects: readonly string[];
}

export interface ReportedTimerState {
  readonly regime: Regime;
  /** `phase correct, TOP OCR2A` */
  readonly mode: string;
  readonly when: string | null;
  /** Every TCCRn, OCRn and ICRn register of the timer; strobe and reserved bits 0. */
  readonly registers: Readonly<Record<string, ReportedRegister>>;
}

export interface ReportedTimer {
  readonly timer: number;
  readonly states: readonly ReportedTimerState[];
}

export interface ReportedSignal {
  readonly regime: Regime;
  readonly kind: SignalKind;
  /** Null in a level: constant, but not known which. */
  readonly level: "low" | "high" | null;
  readonly driver: Driver | null;
  readonly frequencyHz: Bounds<number> | null;
  /** High fraction; 0 and 1 are levels, never part of a pulse. */
  readonly duty: Bounds<number> | null;
  /** CPU clock cycles high per period. */
  readonly highTicks: Bounds<number> | null;
  readonly periodTicks: Bounds<number> | null;
  readonly steps: number | null;
  readonly top: Bounds<number> | null;
  readonly prescaler: number | null;
  readonly when: string | null;
  readonly from: readonly ReportedPlace[];
}

export interface ReportedPin {
  /** Board number, or the port's name on a bare chip. */
  readonly pin: string;
  readonly port: string;
  readonly units: readonly string[];
  readonly timer: number | null;
  readonly signals: readonly ReportedSignal[];
}

export interface ReportedInterrupt {
  readonly vector: string;
  readonly rateHz: Bounds<number> | null;
}

export interface ReportedWant extends ReportedPlace {
  readonly pin: string;
  readonly text: string;
  readonly met: Verdict;
  readonly reasons: readonly string[];
}

export interface ReportedReading {
  readonly pin: string;
  readonly text: string;
  readonly line: number;
  readonly fits: "yes" | "no" | "unknown";
  /** Relative: 0.001 is a clock 0.1 % fast. */
  readonly clockError: Bounds<number> | null;
  readonly explanations: readonly string[];
}

export interface ReportedFinding {
  readonly id: string;
  readonly severity: Severity;
  readonly message: string;
  readonly path: string;
  readonly range: ReportedRange;
  readonly related: readonly (ReportedPlace & { readonly message: string })[];
  /** Titles. */
  readonly fixes: readonly string[];
}

export interface ReportedSketch {
  /** As given on the command line. */
  readonly path: string;
  readonly board: string;
  readonly chip: string;
  readonly clockHz: number;
  readonly fCpu: number;
  /** Relative, one-sided. */
  readonly clockTolerance: number;
  /** False: a limit was hit or something was not seen. */
  readonly complete: boolean;
  readonly gaps: readonly ReportedGap[];
  /** Every timer of the chip, touched or not. */
  readonly timers: readonly ReportedTimer[];
  readonly pins: readonly ReportedPin[];
  readonly interrupts: readonly ReportedInterrupt[];
  readonly wants: readonly ReportedWant[];
  readonly readings: readonly ReportedReading[];
  readonly findings: readonly ReportedFinding[];
}

/** `pulsewright report --format json` */
export interface Report {
  readonly schema: 1;
  readonly tool: "pulsewright";
  readonly version: string;
  readonly sketches: readonly ReportedSketch[];
}

export interface ReportedPlan {
  readonly pin: string;
  readonly timer: number;
  readonly mode: string;
  readonly prescaler: number;
  readonly top: number;
  readonly frequencyHz: number;
  /** Relative to the wanted frequency. */
  readonly error: number;
  readonly steps: number;
  readonly verdict: "yes" | "marginal" | "no";
  readonly costs: readonly string[];
  readonly code: string;
}

/** `pulsewright plan --format json` */
export interface PlanReport {
  readonly schema: 1;
  readonly pin: string;
  readonly want: string;
  readonly plans: readonly ReportedPlan[];
  /** Why there is no plan; absent where there is one. */
  readonly why?: string;
}

export interface ReportedExplanation {
  readonly frequencyHz: number;
  readonly registers: Readonly<Record<string, ReportedRegister>>;
  /** What slip would lead there. */
  readonly slip: string;
  /** 1 is the smallest slip. */
  readonly rank: number;
}

/** `pulsewright explain --format json` */
export interface ExplainReport {
  readonly schema: 1;
  readonly pin: string;
  readonly reading: string;
  /** Whether the prediction gives it: the sketch's, or that of the core alone. */
  readonly fits: "yes" | "no" | "unknown";
  /** What is predicted, in words; empty where nothing is. */
  readonly predicted: string;
  readonly explanations: readonly ReportedExplanation[];
}
