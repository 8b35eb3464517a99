/**
 * Comparisons of abstract integers of one common C type, and what a comparison's outcome says about its operands.
 * True or false where every pair of values agrees, null where not. An assumption that no value meets answers null.
 */

import { type AnyIntegerType, maskOf, SAFE } from "./integer-type.js";
import { contains, keep, meet } from "./order.js";
import { type AbstractInteger, constant, settled } from "./product.js";

/** Both operands as an assumption leaves them. */
export interface Assumed {
  readonly left: AbstractInteger;
  readonly right: AbstractInteger;
}

export function less(a: AbstractInteger, b: AbstractInteger): boolean | null {
  if (a.max < b.min) return true;
  return a.min >= b.max ? false : null;
}

export function lessEqual(a: AbstractInteger, b: AbstractInteger): boolean | null {
  if (a.max <= b.min) return true;
  return a.min > b.max ? false : null;
}

export function equalTo(a: AbstractInteger, b: AbstractInteger): boolean | null {
  if (a.min === a.max && b.min === b.max) return a.min === b.min;
  if (a.max < b.min || b.max < a.min) return false;
  if ((a.zeros & b.ones) !== 0 || (a.ones & b.zeros) !== 0) return false;
  if (a.values !== null) return a.values.some((value) => contains(b, value)) ? null : false;
  if (b.values !== null) return b.values.some((value) => contains(a, value)) ? null : false;
  return null;
}

/** Only what is at most `max`. */
function atMost(a: AbstractInteger, max: number, type: AnyIntegerType): AbstractInteger | null {
  if (a.max <= max) return a;
  if (a.values !== null) return keep(a, type, (value) => value <= max);
  return settled(a.min, max, a.zeros, a.ones, type);
}

/** Only what is at least `min`. */
function atLeast(a: AbstractInteger, min: number, type: AnyIntegerType): AbstractInteger | null {
  if (a.min >= min) return a;
  if (a.values !== null) return keep(a, type, (value) => value >= min);
  return settled(min, a.max, a.zeros, a.ones, type);
}

/** One below a bound; an end of a 64-bit type stays, since it is not exact. */
function below(bound: number): number {
  return bound > SAFE ? bound : bound - 1;
}

function above(bound: number): number {
  return bound < -SAFE ? bound : bound + 1;
}

function both(left: AbstractInteger | null, right: AbstractInteger | null): Assumed | null {
  return left === null || right === null ? null : { left, right };
}

export function assumeLess(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): Assumed | null {
  return both(atMost(a, below(b.max), type), atLeast(b, above(a.min), type));
}

export function assumeLessEqual(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): Assumed | null {
  return both(atMost(a, b.max, type), atLeast(b, a.min, type));
}

export function assumeEqual(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): Assumed | null {
  const common = meet(a, b, type);
  return common === null ? null : { left: common, right: common };
}

export function assumeNotEqual(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): Assumed | null {
  return both(b.min === b.max ? without(a, b.min, type) : a, a.min === a.max ? without(b, a.min, type) : b);
}

/** All but one value; a value in the middle of a range cannot be left out. */
function without(a: AbstractInteger, value: number, type: AnyIntegerType): AbstractInteger | null {
  if (value < a.min || value > a.max) return a;
  if (a.values !== null) return keep(a, type, (each) => each !== value);
  if (value !== a.min && value !== a.max) return a;
  return settled(value === a.min ? above(value) : a.min, value === a.max ? below(value) : a.max, a.zeros, a.ones, type);
}

/** `wanted`: the value is not 0. */
export function assumeTruth(a: AbstractInteger, wanted: boolean, type: AnyIntegerType): AbstractInteger | null {
  if (wanted) return without(a, 0, type);
  return contains(a, 0) ? constant(0, type) : null;
}

/** `wanted`: `a & mask` is not 0. Bits of the mask above the 32nd are not looked at. */
export function assumeBits(
  a: AbstractInteger,
  mask: number,
  wanted: boolean,
  type: AnyIntegerType,
): AbstractInteger | null {
  const tested = (mask & maskOf(type)) >>> 0;
  const beyond = type.bits > 32 && (mask < 0 || mask > 0xffffffff);
  if (a.values !== null && !beyond) return keep(a, type, (value) => ((value & tested) !== 0) === wanted);
  if (!wanted) return settled(a.min, a.max, (a.zeros | tested) >>> 0, a.ones, type);
  if (beyond || (a.ones & tested) !== 0) return a;
  const candidates = (tested & ~a.zeros) >>> 0;
  if (candidates === 0) return null;
  const ones = (candidates & (candidates - 1)) === 0 ? (a.ones | candidates) >>> 0 : a.ones;
  return settled(leastWithOneOf(a.min, candidates, type), a.max, a.zeros, ones, type);
}

/** A lower bound moved up to the next value that has one of the bits; past the type's end where there is none. */
function leastWithOneOf(min: number, candidates: number, type: AnyIntegerType): number {
  if (type.bits > 32 || (min & candidates) !== 0) return min;
  const lowestBit = (candidates & -candidates) >>> 0;
  return Math.floor(min / lowestBit) * lowestBit + lowestBit;
}
