/**
 * Joins waveforms of one timer state: pulses of the same mode, prescaler and make into one with bounds, equal levels
 * into one. What differs in kind stays apart.
 */
import { compareFractions, type Fraction } from "../fraction.js";
import type { Bounds, Waveform } from "../signal.js";

/** A waveform with the key of the timer state it belongs to; equal keys are merged. */
export interface KeyedWaveform {
  readonly key: string;
  readonly waveform: Waveform;
}

export function mergeKeyed(entries: readonly KeyedWaveform[]): Waveform[] {
  const groups = new Map<string, Waveform>();
  for (const { key, waveform } of entries) {
    const whole = `${key}|${waveform.kind}|${waveform.level}|${waveform.driver}`;
    const before = groups.get(whole);
    groups.set(whole, before === undefined ? waveform : join(before, waveform));
  }
  return [...groups.values()];
}

function join(left: Waveform, right: Waveform): Waveform {
  return {
    ...left,
    frequencyHz: joinFractions(left.frequencyHz, right.frequencyHz),
    duty: joinFractions(left.duty, right.duty),
    highTicks: joinNumbers(left.highTicks, right.highTicks),
    periodTicks: joinNumbers(left.periodTicks, right.periodTicks),
    steps: left.steps === right.steps ? left.steps : null,
    top: joinNumbers(left.top, right.top),
    prescaler: left.prescaler === right.prescaler ? left.prescaler : null,
    because: joinReasons(left.because, right.because),
  };
}

function joinNumbers(left: Bounds<number> | null, right: Bounds<number> | null): Bounds<number> | null {
  return left === null || right === null
    ? null
    : { min: Math.min(left.min, right.min), max: Math.max(left.max, right.max) };
}

function joinFractions(left: Bounds<Fraction> | null, right: Bounds<Fraction> | null): Bounds<Fraction> | null {
  return left === null || right === null
    ? null
    : {
        min: compareFractions(left.min, right.min) <= 0 ? left.min : right.min,
        max: compareFractions(left.max, right.max) >= 0 ? left.max : right.max,
      };
}

/** Different reasons are listed, a few of them. */
function joinReasons(left: string | null, right: string | null): string | null {
  if (left === null || right === null || left === right) {
    return left ?? right;
  }
  const parts = left.split("; or ");
  return parts.includes(right) || parts.length >= 3 ? left : `${left}; or ${right}`;
}
