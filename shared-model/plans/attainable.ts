/**
 * Which of a unit's high times keep within a want, and how good that is: the rules of `wants/judge.ts` as plain arithmetic,
 * for the planner to ask millions of times. A test holds the two equal.
 */
import type { Range, WantedSignal } from "../wants/comment.js";
import { type HighCounts, highCounts, stepsOf, type Way } from "./ways.js";

/** 2 = yes, 1 = marginal (met at the nominal clock only), 0 = no. */
export type Grade = 0 | 1 | 2;

export interface Clocked {
  readonly clockHz: number;
  /** Relative, one-sided. */
  readonly tolerance: number;
}

/** High counts that may be used, ends included. */
export interface Attained {
  readonly grade: 1 | 2;
  readonly least: number;
  readonly most: number;
}

/** As the judge has it: bounds written in decimals are met to the last digit that a double carries. */
const ROUNDING = 1e-9;

function atLeast(value: number, bound: number): boolean {
  return value >= bound - Math.abs(bound) * ROUNDING;
}

function atMost(value: number, bound: number): boolean {
  return bound === Number.POSITIVE_INFINITY || value <= bound + Math.abs(bound) * ROUNDING;
}

export function gradeOfFrequency(wanted: Range, hz: number, tolerance: number): Grade {
  if (!atLeast(hz, wanted.min) || !atMost(hz, wanted.max)) return 0;
  return atLeast(hz * (1 - tolerance), wanted.min) && atMost(hz * (1 + tolerance), wanted.max) ? 2 : 1;
}

/** What the unit can do for this want at this setting; null where it cannot meet it even at the nominal clock. */
export function attain(want: WantedSignal, way: Way, prescaler: number, top: number, clock: Clocked): Attained | null {
  const cycles = way.times * prescaler * (top + way.plus);
  let grade: Grade = 2;
  if (want.frequency !== undefined) {
    grade = gradeOfFrequency(want.frequency, clock.clockHz / cycles, clock.tolerance);
    if (grade === 0) return null;
  }
  if (want.steps !== undefined && stepsOf(way, top) < want.steps.steps) return null;
  const all = highCounts(way, top);
  if (isFreeOfDuty(want)) return { grade, least: all.least, most: all.most };
  const nominal = usable(want, way, all, cycles, clock, 0, top);
  if (nominal === null) return null;
  if (want.pulse === undefined) return { ...nominal, grade };
  const safe = usable(want, way, all, cycles, clock, clock.tolerance, top);
  return safe === null ? { ...nominal, grade: 1 } : { ...safe, grade };
}

/** Whether every high time is as good as any other. */
export function isFreeOfDuty({ duty, pulse, reach, idle }: WantedSignal): boolean {
  return duty === undefined && pulse === undefined && reach === undefined && idle === undefined;
}

/** The high counts within duty and width, where they hold a pulse and both ends that must be reached. */
function usable(
  want: WantedSignal,
  way: Way,
  all: HighCounts,
  cycles: number,
  clock: Clocked,
  tolerance: number,
  top: number,
): { readonly least: number; readonly most: number } | null {
  const { whole } = all;
  let { least, most } = all;
  const { duty, pulse, reach, idle } = want;
  // Constant, the pin is at the level it is to rest at, or not constant at all.
  if (idle?.level === "low") most = Math.min(most, whole - 1);
  if (idle?.level === "high") least = Math.max(least, 1);
  if (duty !== undefined) {
    least = firstFrom(least, duty.min * whole, (high) => atLeast(high / whole, duty.min));
    most = lastTo(most, duty.max * whole, (high) => atMost(high / whole, duty.max));
  }
  if (pulse !== undefined) {
    // The judge's own steps, so that both round alike: cycles · (1 / (frequency · cycles a period)).
    const cyclesEach = cycles / whole;
    const tick = 1 / ((clock.clockHz / cycles) * cycles);
    const width = (high: number) => high * cyclesEach * tick;
    // A constant level is no pulse.
    least = Math.max(least, 1);
    most = Math.min(most, whole - 1);
    const counts = (seconds: number) => seconds / (cyclesEach * tick);
    least = firstFrom(least, counts(pulse.min) * (1 + tolerance), (high) =>
      atLeast(width(high) / (1 + tolerance), pulse.min),
    );
    most = lastTo(most, counts(pulse.max) * (1 - tolerance), (high) =>
      atMost(width(high) / (1 - tolerance), pulse.max),
    );
  }
  // At least one of them must be a pulse.
  if (Math.max(least, 1) > Math.min(most, whole - 1)) return null;
  if (reach !== undefined) {
    const steps = stepsOf(way, top);
    const halfStep = steps < 2 ? 0 : 0.5 / (steps - 1);
    if (least / whole > reach.min + halfStep + ROUNDING || most / whole < reach.max - halfStep - ROUNDING) return null;
  }
  return { least, most };
}

/** The first whole number from `from` on that holds, `guess` being within rounding of it. */
function firstFrom(from: number, guess: number, holds: (value: number) => boolean): number {
  let value = Math.max(from, Math.ceil(guess) - 1);
  while (!holds(value)) value += 1;
  return value;
}

function lastTo(to: number, guess: number, holds: (value: number) => boolean): number {
  let value = Math.min(to, Math.floor(guess) + 1);
  while (value >= 0 && !holds(value)) value -= 1;
  return value;
}
