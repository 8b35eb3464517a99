/** The domain of intervals: the least and the greatest possible value, both inclusive. */

import { type AnyIntegerType, highest, lowest, maskOf, power, SAFE } from "./integer-type.js";

/**
 * Integers within the type's range. Of a 64-bit type each bound is exact, or it is the type's own end, or (where no
 * value within ±(2^53 − 1) is possible) the outermost exact integer: what a double cannot hold is rounded outwards.
 */
export interface Interval {
  readonly min: number;
  readonly max: number;
}

export function top(type: AnyIntegerType): Interval {
  return { min: lowest(type), max: highest(type) };
}

export function contains(a: Interval, value: number): boolean {
  return a.min <= value && value <= a.max;
}

export function leq(a: Interval, b: Interval): boolean {
  return b.min <= a.min && a.max <= b.max;
}

export function equal(a: Interval, b: Interval): boolean {
  return a.min === b.min && a.max === b.max;
}

export function join(a: Interval, b: Interval): Interval {
  return { min: Math.min(a.min, b.min), max: Math.max(a.max, b.max) };
}

export function meet(a: Interval, b: Interval, _type: AnyIntegerType): Interval | null {
  const min = Math.max(a.min, b.min);
  const max = Math.min(a.max, b.max);
  return min > max ? null : { min, max };
}

/** Where a growing bound rests: the ends of C's types and of the timers' counters. Ascending. */
const RESTS: readonly number[] = [
  -0x80000000, -0x8000, -0x80, -1, 0, 1, 0x7f, 0xff, 0x1ff, 0x3ff, 0x7fff, 0xffff, 0x7fffffff, 0xffffffff,
];

/** The same for values that are compared with something: where they start, and what a duty or a reading ends with. */
const FEW_RESTS: readonly number[] = [0, 0xff, 0x3ff];

/** Rounds of plain joining before a bound is let climb. */
export const JOIN_ROUNDS = 3;

/** Rounds after which an unstable value is given up altogether: it proves that every loop ends. */
export const LAST_ROUND = 24;

/**
 * A bound that still moves climbs to the next constant named by the caller or its neighbour (what a counter is compared
 * with), where there are none to the next rest; beyond the last of them to the type's end.
 */
export function widen(
  before: Interval,
  after: Interval,
  round: number,
  type: AnyIntegerType,
  constants: readonly number[] = [],
): Interval {
  if (leq(after, before)) return before;
  if (round >= LAST_ROUND) return top(type);
  if (round < JOIN_ROUNDS) return join(before, after);
  return {
    min:
      after.min < before.min
        ? climbed(before.min, after.min, restBelow(after.min, lowest(type), constants), constants)
        : before.min,
    max:
      after.max > before.max
        ? climbed(before.max, after.max, restAbove(after.max, highest(type), constants), constants)
        : before.max,
  };
}

/** From a constant on one step more is taken as it is: `if (n < 180) n += step;` ends less than a step past 180. */
function climbed(before: number, after: number, rest: number, constants: readonly number[]): number {
  return constants.some((constant) => Math.abs(before - constant) <= 1) ? after : rest;
}

function restAbove(value: number, end: number, constants: readonly number[]): number {
  let rest = end;
  for (const at of constants.length === 0 ? RESTS : FEW_RESTS) if (at >= value && at < rest) rest = at;
  for (const constant of constants) {
    for (let at = constant - 1; at <= constant + 1; at++) if (at >= value && at < rest) rest = at;
  }
  return rest;
}

function restBelow(value: number, end: number, constants: readonly number[]): number {
  let rest = end;
  for (const at of constants.length === 0 ? RESTS : FEW_RESTS) if (at <= value && at > rest) rest = at;
  for (const constant of constants) {
    for (let at = constant - 1; at <= constant + 1; at++) if (at <= value && at > rest) rest = at;
  }
  return rest;
}

export function show(a: Interval, _type: AnyIntegerType): string {
  return a.min === a.max ? String(a.min) : `${a.min}..${a.max}`;
}

export function whyNotLeq(a: Interval, b: Interval): string | null {
  if (a.min < b.min) return `${a.min} is below ${b.min}`;
  if (a.max > b.max) return `${a.max} is above ${b.max}`;
  return null;
}

/**
 * All of min..max modulo 2^bits. Exact where all of it wraps the same number of times, else the whole type. Bounds
 * that a double had to round count as "may have wrapped".
 */
export function wrapped(min: number, max: number, type: AnyIntegerType): Interval {
  const low = lowest(type);
  const high = highest(type);
  if (type.bits > 53) {
    // Half of the type's range is far enough from its end for every rounding of a double.
    return min >= low / 2 && max <= high / 2 ? rounded(min, max, type) : { min: low, max: high };
  }
  if (min >= low && max <= high) return { min, max };
  if (min < -SAFE || max > SAFE) return { min: low, max: high };
  const modulus = power(type.bits);
  const turns = Math.floor((min - low) / modulus);
  if (turns !== Math.floor((max - low) / modulus)) return { min: low, max: high };
  return { min: min - turns * modulus, max: max - turns * modulus };
}

/** Bounds of a 64-bit type that no double holds exactly, moved outwards. */
export function rounded(min: number, max: number, type: AnyIntegerType): Interval {
  return {
    min: min < -SAFE ? lowest(type) : Math.min(min, SAFE),
    max: max > SAFE ? highest(type) : Math.max(max, -SAFE),
  };
}

export function add(a: Interval, b: Interval, type: AnyIntegerType): Interval {
  return wrapped(a.min + b.min, a.max + b.max, type);
}

export function sub(a: Interval, b: Interval, type: AnyIntegerType): Interval {
  return wrapped(a.min - b.max, a.max - b.min, type);
}

export function mul(a: Interval, b: Interval, type: AnyIntegerType): Interval {
  const p = a.min * b.min;
  const q = a.min * b.max;
  const r = a.max * b.min;
  const s = a.max * b.max;
  return wrapped(Math.min(p, q, r, s), Math.max(p, q, r, s), type);
}

/**
 * C's division, towards zero; 0 is left out of the divisor, and the answer is null where nothing else is in it. The
 * one quotient that does not fit (the least value by −1) wraps to the least value.
 */
export function div(a: Interval, b: Interval, type: AnyIntegerType): Interval | null {
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  if (b.max > 0) {
    const least = Math.max(1, b.min);
    min = Math.min(a.min / least, a.min / b.max);
    max = Math.max(a.max / least, a.max / b.max);
  }
  if (b.min < 0) {
    const nearest = Math.min(-1, b.max);
    min = Math.min(min, a.max / nearest, a.max / b.min);
    max = Math.max(max, a.min / nearest, a.min / b.min);
  }
  if (min > max) return null;
  min = Math.trunc(min) + 0;
  max = Math.trunc(max) + 0;
  if (type.signed && a.min === lowest(type) && b.min <= -1 && b.max >= -1) {
    return a.min === a.max && b.min === b.max ? { min: a.min, max: a.min } : top(type);
  }
  return type.bits > 53 ? rounded(min, max, type) : { min, max };
}

/** C's remainder, with the dividend's sign; 0 is left out of the divisor, null where nothing else is in it. */
export function mod(a: Interval, b: Interval, type: AnyIntegerType): Interval | null {
  const largest = Math.max(-b.min, b.max);
  if (largest === 0) return null;
  const smallest = b.min > 0 ? b.min : b.max < 0 ? -b.max : 1;
  if (a.max < smallest && -a.min < smallest) return a;
  if (b.min === b.max && largest <= SAFE && a.min >= -SAFE && a.max <= SAFE) {
    const turns = Math.trunc(a.min / largest);
    if (turns === Math.trunc(a.max / largest)) {
      return { min: a.min - turns * largest, max: a.max - turns * largest };
    }
  }
  const min = a.min < 0 ? -Math.min(largest - 1, -a.min) + 0 : 0;
  const max = a.max > 0 ? Math.min(largest - 1, a.max) : 0;
  return type.bits > 53 ? rounded(min, max, type) : { min, max };
}

/** Shifted left by a known count below the width. */
export function shl(a: Interval, count: number, type: AnyIntegerType): Interval {
  return wrapped(a.min * power(count), a.max * power(count), type);
}

/** Shifted right by a known count below the width; the sign is kept. */
export function shr(a: Interval, count: number, type: AnyIntegerType): Interval {
  const min = Math.floor(a.min / power(count));
  const max = Math.floor(a.max / power(count));
  return type.bits > 53 ? rounded(min, max, type) : { min, max };
}

/** The complement of every bit. */
export function not(a: Interval, type: AnyIntegerType): Interval {
  if (type.signed) return type.bits > 53 ? rounded(-1 - a.max, -1 - a.min, type) : { min: -1 - a.max, max: -1 - a.min };
  if (type.bits > 53) return rounded(highest(type) - a.max, highest(type) - a.min, type);
  const mask = maskOf(type);
  return { min: mask - a.max, max: mask - a.min };
}
