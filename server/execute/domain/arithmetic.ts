/** + − × ÷ % of abstract integers of one C type. Operands are converted already; results wrap to the type. */

import * as bits from "./bits.js";
import { type AnyIntegerType, SAFE } from "./integer-type.js";
import * as interval from "./interval.js";
import { join } from "./order.js";
import { joined, pairwise } from "./pairwise.js";
import { type AbstractInteger, constant, settled, top } from "./product.js";

/** Divisors, factors and counts of so many values are looked at one by one. */
const SPLIT = 8;

function plus(a: number, b: number): number {
  return a + b;
}

function minus(a: number, b: number): number {
  return a - b;
}

/** Exact modulo 2^32 however large; for 64 bits exact or not safe. */
function times(a: number, b: number, type: AnyIntegerType): number {
  return type.bits <= 32 ? Math.imul(a, b) : a * b;
}

function over(a: number, b: number): number {
  return Math.trunc(a / b);
}

function rest(a: number, b: number): number {
  return a % b;
}

function whole(bounds: interval.Interval, known: bits.KnownBits, type: AnyIntegerType): AbstractInteger {
  // Bounds and bits both hold every result of at least one pair, so they cannot exclude each other.
  return settled(bounds.min, bounds.max, known.zeros, known.ones, type)!;
}

export function add(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && b.min === b.max) {
    const sum = a.min + b.min;
    if (sum <= SAFE && sum >= -SAFE) return constant(sum, type);
  }
  return pairwise(a, b, type, plus) ?? whole(interval.add(a, b, type), bits.add(a, b, type), type);
}

export function sub(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && b.min === b.max) {
    const difference = a.min - b.min;
    if (difference <= SAFE && difference >= -SAFE) return constant(difference, type);
  }
  return pairwise(a, b, type, minus) ?? whole(interval.sub(a, b, type), bits.sub(a, b, type), type);
}

export function neg(a: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  return sub(constant(0, type), a, type);
}

export function mul(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && b.min === b.max && type.bits <= 32) return constant(Math.imul(a.min, b.min), type);
  const exact = pairwise(a, b, type, times);
  if (exact !== null) return exact;
  const left = splits(a);
  const right = splits(b);
  // Both ways at once where both are few: either alone may keep a bit that the other loses.
  if (left !== null && right !== null)
    return joined(left, (one) => joined(right, (other) => scaled(constant(one, type), other, type), join), join);
  if (left !== null) return joined(left, (factor) => scaled(b, factor, type), join);
  if (right !== null) return joined(right, (factor) => scaled(a, factor, type), join);
  return whole(interval.mul(a, b, type), bits.mul(a, b, type), type);
}

function splits(a: AbstractInteger): readonly number[] | null {
  return a.values !== null && a.values.length <= SPLIT ? a.values : null;
}

function scaled(a: AbstractInteger, factor: number, type: AnyIntegerType): AbstractInteger {
  const by = constant(factor, type);
  return whole(interval.mul(a, by, type), bits.mul(a, by, type), type);
}

/** Towards zero. A divisor of 0 is undefined behaviour: it is left out, and where there is no other anything may come. */
export function div(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && b.min === b.max && b.min !== 0) return constant(Math.trunc(a.min / b.min), type);
  const exact = pairwise(a, b, type, over, true);
  if (exact !== null) return exact;
  if (b.values === null || b.values.length > SPLIT) return divided(a, b, type);
  const divisors = b.values.filter((value) => value !== 0);
  if (divisors.length === 0) return top(type);
  return joined(divisors, (divisor) => divided(a, constant(divisor, type), type), join);
}

function divided(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  const bounds = interval.div(a, b, type);
  if (bounds === null) return top(type);
  const places = a.min >= 0 && b.min === b.max ? Math.log2(b.min) : Number.NaN;
  const known = Number.isInteger(places) ? bits.shr(a, places, type) : bits.top(type);
  return whole(bounds, known, type);
}

/** With the sign of the dividend. A divisor of 0 is treated as in `div`. */
export function mod(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && b.min === b.max && b.min !== 0) return constant(a.min % b.min, type);
  const exact = pairwise(a, b, type, rest, true);
  if (exact !== null) return exact;
  if (b.values === null || b.values.length > SPLIT) return remainder(a, b, type);
  const divisors = b.values.filter((value) => value !== 0);
  if (divisors.length === 0) return top(type);
  return joined(divisors, (divisor) => remainder(a, constant(divisor, type), type), join);
}

function remainder(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  const bounds = interval.mod(a, b, type);
  if (bounds === null) return top(type);
  // Every divisor is a multiple of this power of two, so dividend and remainder agree in the bits below it.
  const agreed = bits.lowMask(bits.trailingZeros(b.zeros));
  return settled(bounds.min, bounds.max, (a.zeros & agreed) >>> 0, (a.ones & agreed) >>> 0, type)!;
}
