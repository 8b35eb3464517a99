/**
 * The domain of AVR's floating-point numbers. float, double and long double are all IEEE 754 binary32 there (avr-gcc's
 * ABI). This file is the lattice; arithmetic and the C library stand beside it.
 */

import { type Dependence, plain } from "./dependence.js";
import { FEW, insert } from "./few.js";

/**
 * A non-empty set of binary32 numbers: all from `min` to `max` inclusive (infinities too), and NaN where `nan` is set.
 * −0 and 0 count as one number, written 0. `values` lists every number, ascending, exactly where they are at most
 * `FEW`. Where only NaN is possible, `values` is empty, `min` is Infinity and `max` −Infinity.
 */
export interface AbstractFloat {
  readonly min: number;
  readonly max: number;
  readonly nan: boolean;
  readonly values: readonly number[] | null;
  /** What it is a function of, where that is one reading. Not part of the set: equal values may differ in it. */
  readonly by?: Dependence;
}

const single = new Float32Array(1);
const pattern = new Int32Array(single.buffer);

/** Rank of a binary32 number among all of them: neighbours differ by one, 0 has rank 0. */
export function rankOf(value: number): number {
  single[0] = value;
  const bits = pattern[0]!;
  return bits >= 0 ? bits : -(bits & 0x7fffffff);
}

export function ofRank(rank: number): number {
  pattern[0] = rank >= 0 ? rank : -rank;
  return rank >= 0 ? single[0]! : -single[0]!;
}

/** The next binary32 number above (or −Infinity's and Infinity's own neighbour inside). */
export function nextUp(value: number): number {
  return value === Number.POSITIVE_INFINITY ? value : ofRank(rankOf(value) + 1) + 0;
}

export function nextDown(value: number): number {
  return value === Number.NEGATIVE_INFINITY ? value : ofRank(rankOf(value) - 1) + 0;
}

/** The numbers of an ascending list without repeats, and perhaps NaN. */
export function listed(values: readonly number[], nan: boolean): AbstractFloat {
  const min = values.length === 0 ? Number.POSITIVE_INFINITY : values[0]!;
  const max = values.length === 0 ? Number.NEGATIVE_INFINITY : values[values.length - 1]!;
  return values.length > FEW ? range(min, max, nan) : { min, max, nan, values };
}

/** All numbers between two binary32 numbers, and perhaps NaN. */
export function range(min: number, max: number, nan = false): AbstractFloat {
  const low = Math.fround(min) + 0;
  const high = Math.fround(max) + 0;
  if (!(low <= high)) return nan ? listed([], true) : top;
  const first = rankOf(low);
  const count = rankOf(high) - first + 1;
  if (count > FEW) return { min: low, max: high, nan, values: null };
  return listed(
    Array.from({ length: count }, (_, at) => ofRank(first + at) + 0),
    nan,
  );
}

/** One number, rounded to binary32. */
export function constant(value: number): AbstractFloat {
  return Number.isNaN(value) ? listed([], true) : listed([Math.fround(value) + 0], false);
}

export const top: AbstractFloat = {
  min: Number.NEGATIVE_INFINITY,
  max: Number.POSITIVE_INFINITY,
  nan: true,
  values: null,
};

/** Any number of numbers in any order, each rounded to binary32. None means nothing is known. */
export function fromValues(list: readonly number[]): AbstractFloat {
  if (list.length === 0) return top;
  const found: number[] = [];
  for (const value of list) if (!Number.isNaN(value)) insert(found, Math.fround(value) + 0);
  return listed(found, list.some(Number.isNaN));
}

export function isSingle(a: AbstractFloat): boolean {
  return a.min === a.max && !a.nan;
}

export function contains(a: AbstractFloat, value: number): boolean {
  if (Number.isNaN(value)) return a.nan;
  return a.values === null ? a.min <= value && value <= a.max : a.values.includes(value + 0);
}

export function leq(a: AbstractFloat, b: AbstractFloat): boolean {
  if (a === b) return true;
  if ((a.nan && !b.nan) || a.min < b.min || a.max > b.max) return false;
  if (b.values === null) return true;
  return a.values?.every((value) => b.values!.includes(value)) ?? false;
}

export function equal(a: AbstractFloat, b: AbstractFloat): boolean {
  return leq(a, b) && leq(b, a);
}

/** Gives back one of its operands, itself, where that one holds the other. */
export function join(a: AbstractFloat, b: AbstractFloat): AbstractFloat {
  if (a === b) return a;
  if (leq(b, a)) return plain(a);
  if (leq(a, b)) return plain(b);
  const nan = a.nan || b.nan;
  if (a.values !== null && b.values !== null) {
    const all = [...a.values];
    for (const value of b.values) insert(all, value);
    return listed(all, nan);
  }
  return range(Math.min(a.min, b.min), Math.max(a.max, b.max), nan);
}

export function meet(a: AbstractFloat, b: AbstractFloat): AbstractFloat | null {
  if (leq(a, b)) return a;
  if (leq(b, a)) return b;
  const nan = a.nan && b.nan;
  if (a.values !== null)
    return nonEmpty(
      listed(
        a.values.filter((value) => contains(b, value)),
        nan,
      ),
    );
  if (b.values !== null)
    return nonEmpty(
      listed(
        b.values.filter((value) => contains(a, value)),
        nan,
      ),
    );
  return between(Math.max(a.min, b.min), Math.min(a.max, b.max), nan);
}

function nonEmpty(a: AbstractFloat): AbstractFloat | null {
  return a.min > a.max && !a.nan ? null : a;
}

function between(min: number, max: number, nan: boolean): AbstractFloat | null {
  return min > max && !nan ? null : range(min, max, nan);
}

/** Where a growing bound rests: zero, full scales of percent, 8, 10 and 16 bits, and infinity. */
const SCALES: readonly number[] = [1, 100, 255, 1023, 1024, 65535, Number.POSITIVE_INFINITY];
const RESTS: readonly number[] = [...SCALES.map((rest) => -rest).reverse(), 0, ...SCALES];

/** Rounds of plain joining, and the round from which everything is possible. */
const JOIN_ROUNDS = 3;
const LAST_ROUND = 24;

export function widen(before: AbstractFloat, after: AbstractFloat, round: number): AbstractFloat {
  if (before === after) return before;
  if (leq(after, before)) return plain(before);
  if (round < JOIN_ROUNDS) return join(before, after);
  if (round >= LAST_ROUND) return top;
  const min = after.min < before.min ? RESTS.findLast((rest) => rest <= after.min)! : before.min;
  const max = after.max > before.max ? RESTS.find((rest) => rest >= after.max)! : before.max;
  return range(min, max, before.nan || after.nan);
}

export function show(a: AbstractFloat): string {
  const text =
    a.values === null
      ? `${a.min}..${a.max}`
      : a.values.length === 1
        ? String(a.min)
        : `{${a.values.map(String).join(", ")}}`;
  return a.nan ? (a.values?.length === 0 ? "NaN" : `${text} or NaN`) : text;
}

export function whyNotLeq(a: AbstractFloat, b: AbstractFloat): string | null {
  if (leq(a, b)) return null;
  if (a.nan && !b.nan) return "it may be NaN";
  if (a.min < b.min) return `${a.min} is below ${b.min}`;
  if (a.max > b.max) return `${a.max} is above ${b.max}`;
  const odd = a.values?.find((value) => !contains(b, value));
  return odd === undefined ? `more than ${FEW} numbers` : `${odd} is not among the numbers`;
}
