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
    // The guess is within rounding of the bound; the judge's own comparison decides.
    least = Math.max(least, Math.ceil(duty.min * whole) - 1);
    while (!atLeast(least / whole, duty.min)) least += 1;
    most = Math.min(most, Math.floor(duty.max * whole) + 1);
    while (most >= 0 && !atMost(most / whole, duty.max)) most -= 1;
  }
  if (pulse !== undefined) {
    const each = secondsACount(cycles, whole, clock);
    // A constant level is no pulse.
    least = Math.max(least, 1, Math.ceil((pulse.min / each) * (1 + tolerance)) - 1);
    while (!atLeast((least * each) / (1 + tolerance), pulse.min)) least += 1;
    most = Math.min(most, whole - 1, Math.floor((pulse.max / each) * (1 - tolerance)) + 1);
    while (most >= 0 && !atMost((most * each) / (1 - tolerance), pulse.max)) most -= 1;
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

/** One high count in seconds, by the judge's own steps, so that both round alike. */
function secondsACount(cycles: number, whole: number, clock: Clocked): number {
  return (cycles / whole) * (1 / ((clock.clockHz / cycles) * cycles));
}

/**
 * The best grade that any TOP up to this one can have as far as pulse widths go: a high count lasts as long whatever TOP is, so
 * that what the greatest TOP has no count for none has. Looked at with a little to spare for rounding.
 */
export function gradeOfWidths(want: WantedSignal, way: Way, prescaler: number, top: number, clock: Clocked): Grade {
  const { pulse } = want;
  if (pulse === undefined) return 2;
  const { whole } = highCounts(way, top);
  // A toggling output's width grows with TOP.
  if (way.com === 1) return 2;
  const each = secondsACount(way.times * prescaler * (top + way.plus), whole, clock);
  const fits = (tolerance: number) => {
    const least = Math.max(1, Math.ceil((pulse.min / each) * (1 + tolerance) * (1 - 1e-6)));
    return least <= Math.min(whole - 1, Math.floor((pulse.max / each) * (1 - tolerance) * (1 + 1e-6)));
  };
  return fits(clock.tolerance) ? 2 : fits(0) ? 1 : 0;
}
