/**
 * One way of counting with one prescaler, over all its TOPs: which of them are worth having. Along a lane a greater TOP
 * gives more steps, so what is kept is a staircase: from the most steps down, each with a smaller error than those before.
 *
 * The law: a TOP that is left out is no better in verdict, error and steps than one that is kept here, or than one of a
 * finer prescaler (see `firstTopWorthwhile`), and costs the same.
 */
import type { ClockSource } from "../chip.js";
import type { WantedSignal } from "../wants/comment.js";
import { attain, type Clocked, gradeOfWidths } from "./attainable.js";
import type { Way } from "./ways.js";

/** What one pin is to give, and the frequency that "near" is measured from; null where any will do. */
export interface LaneOutput {
  readonly want: WantedSignal;
  readonly way: Way;
  readonly nearHz: number | null;
}

/** TOPs of one verdict, from the greatest down, and their errors, which fall along with them. */
export interface Staircase {
  readonly tops: readonly number[];
  readonly errors: readonly number[];
}

export interface Lane {
  readonly yes: Staircase;
  readonly marginal: Staircase;
}

/** Below it a frequency is as exact as a double can tell. */
export const EXACT = 1e-12;

/** Relative distance from the frequency that is asked for, signed: above 0 is too fast. */
export function errorOf(output: LaneOutput, prescaler: number, top: number, clockHz: number): number {
  if (output.nearHz === null) return 0;
  const hz = clockHz / (output.way.times * prescaler * (top + output.way.plus));
  const error = hz / output.nearHz - 1;
  return Math.abs(error) < EXACT ? 0 : error;
}

/** The greatest of the outputs' errors, without sign. */
export function worstError(outputs: readonly LaneOutput[], prescaler: number, top: number, clockHz: number): number {
  let worst = 0;
  for (const output of outputs) worst = Math.max(worst, Math.abs(errorOf(output, prescaler, top, clockHz)));
  return worst;
}

/** 2 = yes, 1 = marginal, 0 = no: the gravest of the outputs'. */
export function gradeOf(outputs: readonly LaneOutput[], prescaler: number, top: number, clock: Clocked): 0 | 1 | 2 {
  let grade: 0 | 1 | 2 = 2;
  for (const { want, way } of outputs) {
    const attained = attain(want, way, prescaler, top, clock);
    if (attained === null) return 0;
    if (attained.grade < grade) grade = attained.grade;
  }
  return grade;
}

export interface Tops {
  readonly min: number;
  readonly max: number;
}

export interface LaneLimits {
  /** TOPs that cost something else than the others: they are looked at apart. */
  readonly except: readonly number[];
  /** The error of a plan that costs the same, surely meets the want and has as many steps as there can be: more error is useless. */
  readonly ceiling: number;
}

/** The lane's two staircases. */
export function walkLane(
  outputs: readonly LaneOutput[],
  prescaler: number,
  tops: Tops,
  clock: Clocked,
  { except, ceiling }: LaneLimits,
): Lane {
  const range = topsInWant(outputs, prescaler, tops, clock.clockHz, ceiling);
  const toggles = outputs.some(({ way }) => way.com === 1);
  const yes = { tops: [] as number[], errors: [] as number[] };
  const marginal = { tops: [] as number[], errors: [] as number[] };
  const possible = Math.min(2, ...outputs.map(({ want, way }) => gradeOfWidths(want, way, prescaler, tops.max, clock)));
  if (possible === 0) return { yes, marginal };
  let leastYes = ceiling;
  let leastMarginal = ceiling;
  let before = Number.POSITIVE_INFINITY;
  for (let top = range.max; top >= range.min; top--) {
    const error = worstError(outputs, prescaler, top, clock.clockHz);
    if (error >= (possible === 2 ? leastYes : leastMarginal)) {
      // Once past the nearest TOP the error only grows, and so does what lies behind.
      if (error === 0 || error > before) break;
      before = error;
      continue;
    }
    before = error;
    if (except.includes(top)) continue;
    const grade = gradeOf(outputs, prescaler, top, clock);
    if (grade === 2) {
      leastYes = error;
      leastMarginal = Math.min(leastMarginal, error);
      keep(yes, top, error, toggles);
    } else if (grade === 1 && error < leastMarginal) {
      leastMarginal = error;
      keep(marginal, top, error, toggles);
    }
  }
  return { yes, marginal: beforeOnly(marginal, yes, toggles) };
}

/** A toggling output has one step whatever TOP is: only the least error stays. */
function keep(list: { tops: number[]; errors: number[] }, top: number, error: number, toggles: boolean): void {
  if (toggles) {
    list.tops = [top];
    list.errors = [error];
    return;
  }
  list.tops.push(top);
  list.errors.push(error);
}

/** Among toggling outputs, one that is surely met and as near makes a marginal one useless. */
function beforeOnly(marginal: Staircase, yes: Staircase, toggles: boolean): Staircase {
  if (!toggles || marginal.errors.length === 0 || yes.errors.length === 0) return marginal;
  return yes.errors[0]! <= marginal.errors[0]! ? { tops: [], errors: [] } : marginal;
}

/** The TOPs whose frequency can lie in every wanted range, with one to spare on both sides. */
function topsInWant(
  outputs: readonly LaneOutput[],
  prescaler: number,
  tops: Tops,
  clockHz: number,
  ceiling: number,
): Tops {
  let { min, max } = tops;
  for (const { want, way, nearHz } of outputs) {
    if (want.frequency === undefined) continue;
    const topAt = (hz: number) => clockHz / (hz * way.times * prescaler) - way.plus;
    if (nearHz !== null && ceiling < 1) max = Math.min(max, Math.ceil(topAt(nearHz * (1 - ceiling))) + 1);
    min = Math.max(min, Math.floor(topAt(want.frequency.max)) - 1);
    if (want.frequency.min > 0) max = Math.min(max, Math.ceil(topAt(want.frequency.min)) + 1);
  }
  return { min, max };
}

/**
 * The first TOP that a finer prescaler cannot replace. Where the finer one divides this prescaler by r, its TOP of
 * r · (TOP + plus) - plus gives the very same period, r times the steps, every duty that this one has, and costs the same;
 * so a TOP below is never worthwhile. That fails where both ends of a range must be *reached*, since the judge grants half a
 * step there, which is less with more steps: then every TOP is worth a look.
 */
export function firstTopWorthwhile(
  outputs: readonly LaneOutput[],
  clocks: readonly ClockSource[],
  prescaler: number,
  tops: Tops,
): number {
  if (tops.min === tops.max || outputs.some(({ want }) => want.reach !== undefined)) return tops.min;
  let first = tops.min;
  for (const clock of clocks) {
    if (clock.kind !== "divided" || clock.by >= prescaler || prescaler % clock.by !== 0) continue;
    const { plus } = outputs[0]!.way;
    first = Math.max(first, Math.floor(((tops.max + plus) * clock.by) / prescaler) - plus + 1);
  }
  return first;
}
