/**
 * Arithmetic, comparison and conversion of abstract binary32 numbers. Sums, products, quotients and square roots of
 * binary32 numbers are the binary64 results rounded once more: the second rounding does no harm (53 ≥ 2 · 24 + 2 bits;
 * a well-known theorem).
 */

import * as integers from "./convert.js";
import { FEW, insert } from "./few.js";
import { type AbstractFloat, constant, contains, listed, meet, nextDown, nextUp, range, top } from "./float-range.js";
import { type AnyIntegerType, highest, lowest } from "./integer-type.js";
import { PAIRS } from "./pairwise.js";
import { type AbstractInteger, constant as constantInteger, top as topInteger } from "./product.js";

const LARGEST = Number.POSITIVE_INFINITY;

/** All results of a function of one number, number by number; null where they are too many. */
export function each(a: AbstractFloat, scalar: (value: number) => number): AbstractFloat | null {
  if (a.values === null) return null;
  if (a.values.length === 1 && !a.nan) return constant(scalar(a.min));
  const found: number[] = [];
  let nan = a.nan;
  for (const value of a.values) {
    const result = Math.fround(scalar(value));
    if (Number.isNaN(result)) nan = true;
    else insert(found, result + 0);
  }
  return listed(found, nan);
}

/** The same of two numbers, pair by pair. */
function pairs(a: AbstractFloat, b: AbstractFloat, scalar: (x: number, y: number) => number): AbstractFloat | null {
  if (a.values === null || b.values === null || a.values.length * b.values.length > PAIRS) return null;
  const found: number[] = [];
  let nan = a.nan || b.nan;
  for (const y of b.values) {
    for (const x of a.values) {
      const result = Math.fround(scalar(x, y));
      if (Number.isNaN(result)) nan = true;
      else insert(found, result + 0);
      // A zero stands for −0 too, and 1 / −0 is the other infinity.
      if (scalar === quotient && y === 0 && result !== 0 && !Number.isNaN(result)) insert(found, -result);
    }
  }
  return listed(found, nan);
}

function sum(a: number, b: number): number {
  return a + b;
}

function product(a: number, b: number): number {
  return a * b;
}

function quotient(a: number, b: number): number {
  return a / b;
}

function isEmpty(a: AbstractFloat): boolean {
  return a.min > a.max;
}

function hasInfinity(a: AbstractFloat): boolean {
  return a.min === -LARGEST || a.max === LARGEST;
}

const NOTHING = listed([], true);

/** The hull of the corners' results; where one of them is NaN (0 · ∞, ∞ / ∞, ∞ − ∞) anything may be nearby. */
function corners(results: readonly number[], nan: boolean): AbstractFloat {
  if (results.some(Number.isNaN)) return top;
  return range(Math.min(...results), Math.max(...results), nan);
}

export function add(a: AbstractFloat, b: AbstractFloat): AbstractFloat {
  const exact = pairs(a, b, sum);
  if (exact !== null) return exact;
  if (isEmpty(a) || isEmpty(b)) return NOTHING;
  const opposite = (a.max === LARGEST && b.min === -LARGEST) || (a.min === -LARGEST && b.max === LARGEST);
  return corners([a.min + b.min, a.max + b.max], a.nan || b.nan || opposite);
}

export function neg(a: AbstractFloat): AbstractFloat {
  if (a.values !== null) return listed(a.values.map((value) => -value + 0).reverse(), a.nan);
  return range(-a.max, -a.min, a.nan);
}

export function sub(a: AbstractFloat, b: AbstractFloat): AbstractFloat {
  return add(a, neg(b));
}

export function mul(a: AbstractFloat, b: AbstractFloat): AbstractFloat {
  const exact = pairs(a, b, product);
  if (exact !== null) return exact;
  if (isEmpty(a) || isEmpty(b)) return NOTHING;
  const nan = (contains(a, 0) && hasInfinity(b)) || (contains(b, 0) && hasInfinity(a));
  return corners([a.min * b.min, a.min * b.max, a.max * b.min, a.max * b.max], a.nan || b.nan || nan);
}

export function div(a: AbstractFloat, b: AbstractFloat): AbstractFloat {
  const exact = pairs(a, b, quotient);
  if (exact !== null) return exact;
  if (isEmpty(a) || isEmpty(b)) return NOTHING;
  const nan = a.nan || b.nan || (contains(a, 0) && contains(b, 0)) || (hasInfinity(a) && hasInfinity(b));
  // Next to a divisor of 0, of either sign, lie both infinities.
  if (b.min <= 0 && b.max >= 0) return range(-LARGEST, LARGEST, nan);
  return corners([a.min / b.min, a.min / b.max, a.max / b.min, a.max / b.max], nan);
}

/** True or false where every pair of numbers agrees, null where not. A comparison with NaN is false. */
export function less(a: AbstractFloat, b: AbstractFloat): boolean | null {
  if (isEmpty(a) || isEmpty(b) || a.min >= b.max) return false;
  return a.max < b.min && !a.nan && !b.nan ? true : null;
}

export function lessEqual(a: AbstractFloat, b: AbstractFloat): boolean | null {
  if (isEmpty(a) || isEmpty(b) || a.min > b.max) return false;
  return a.max <= b.min && !a.nan && !b.nan ? true : null;
}

export function equalTo(a: AbstractFloat, b: AbstractFloat): boolean | null {
  if (isEmpty(a) || isEmpty(b) || a.max < b.min || b.max < a.min) return false;
  if (a.values?.every((value) => !contains(b, value)) || b.values?.every((value) => !contains(a, value))) return false;
  return a.min === a.max && b.min === b.max && !a.nan && !b.nan ? true : null;
}

/** Is it non-zero? NaN is. */
export function truth(a: AbstractFloat): boolean | null {
  if (!contains(a, 0)) return true;
  return a.min === a.max && !a.nan ? false : null;
}

/** Both operands as an assumption leaves them. */
export interface AssumedFloats {
  readonly left: AbstractFloat;
  readonly right: AbstractFloat;
}

/** A cut to bounds; NaN stays only where `nan` allows it. Null where nothing is left. */
function cut(a: AbstractFloat, min: number, max: number, nan: boolean): AbstractFloat | null {
  return min > max ? (nan && a.nan ? NOTHING : null) : meet(a, range(min, max, nan));
}

function both(left: AbstractFloat | null, right: AbstractFloat | null): AssumedFloats | null {
  return left === null || right === null ? null : { left, right };
}

export function assumeLess(a: AbstractFloat, b: AbstractFloat): AssumedFloats | null {
  if (less(a, b) === false) return null;
  return both(cut(a, -LARGEST, nextDown(b.max), false), cut(b, nextUp(a.min), LARGEST, false));
}

export function assumeLessEqual(a: AbstractFloat, b: AbstractFloat): AssumedFloats | null {
  if (lessEqual(a, b) === false) return null;
  return both(cut(a, -LARGEST, b.max, false), cut(b, a.min, LARGEST, false));
}

/** Not the same as "greater or equal": it holds too where either is NaN. */
export function assumeNotLess(a: AbstractFloat, b: AbstractFloat): AssumedFloats | null {
  if (less(a, b) === true) return null;
  return a.nan || b.nan ? { left: a, right: b } : turned(assumeLessEqual(b, a));
}

export function assumeNotLessEqual(a: AbstractFloat, b: AbstractFloat): AssumedFloats | null {
  if (lessEqual(a, b) === true) return null;
  return a.nan || b.nan ? { left: a, right: b } : turned(assumeLess(b, a));
}

function turned(assumed: AssumedFloats | null): AssumedFloats | null {
  return assumed === null ? null : { left: assumed.right, right: assumed.left };
}

export function assumeEqual(a: AbstractFloat, b: AbstractFloat): AssumedFloats | null {
  const common = meet({ ...a, nan: false }, { ...b, nan: false });
  return common === null || isEmpty(common) ? null : { left: common, right: common };
}

export function assumeNotEqual(a: AbstractFloat, b: AbstractFloat): AssumedFloats | null {
  if (equalTo(a, b) === true) return null;
  return both(without(a, b), without(b, a));
}

/** What of `a` can differ from `b`, where `b` is one number. */
function without(a: AbstractFloat, b: AbstractFloat): AbstractFloat | null {
  if (b.nan || b.min !== b.max) return a;
  if (a.values !== null) {
    const kept = a.values.filter((value) => value !== b.min);
    return kept.length === 0 && !a.nan ? null : kept.length === a.values.length ? a : listed(kept, a.nan);
  }
  if (b.min === a.min) return range(nextUp(a.min), a.max, a.nan);
  return b.min === a.max ? range(a.min, nextDown(a.max), a.nan) : a;
}

export function assumeTruth(a: AbstractFloat, wanted: boolean): AbstractFloat | null {
  const zero = constant(0);
  if (wanted) return without(a, zero);
  return contains(a, 0) ? zero : null;
}

/** C's conversion to float: the nearest binary32 number, ties to even. */
export function fromInteger(a: AbstractInteger): AbstractFloat {
  if (a.values === null) return range(a.min, a.max);
  const found: number[] = [];
  for (const value of a.values) insert(found, Math.fround(value));
  return listed(found, false);
}

/** C's conversion to an integer: towards zero. NaN and what does not fit are undefined behaviour: anything may come. */
export function toInteger(a: AbstractFloat, type: AnyIntegerType): AbstractInteger {
  const min = Math.trunc(a.min) + 0;
  const max = Math.trunc(a.max) + 0;
  // Of 64 bits the greatest value stands rounded up in `highest`: a float of that size does not fit any more.
  const fits = type.bits > 53 ? max < highest(type) : max <= highest(type);
  if (a.nan || !(min >= lowest(type)) || !fits) return topInteger(type);
  if (min === max) return constantInteger(min, type);
  return a.values === null || a.values.length > FEW
    ? integers.range(min, max, type)
    : integers.fromValues(a.values.map(Math.trunc), type);
}
