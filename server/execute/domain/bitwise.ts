/** & | ^ ~ << >> of abstract integers of one C type. Operands are converted already; results wrap to the type. */

import * as bits from "./bits.js";
import { type BitOperation, boundsOf } from "./bitwise-bounds.js";
import { type AnyIntegerType, highest, power } from "./integer-type.js";
import * as interval from "./interval.js";
import { join } from "./order.js";
import { joined, pairwise } from "./pairwise.js";
import { type AbstractInteger, constant, listed, settled, top } from "./product.js";

/** Both halves of a number at most 2^53 in size, joined again after a 32-bit operation on each. */
function onHalves(a: number, b: number, operation: (x: number, y: number) => number): number {
  const upper = operation(Math.floor(a / power(32)), Math.floor(b / power(32)));
  return upper * power(32) + (operation(a, b) >>> 0);
}

const and32 = (a: number, b: number) => a & b;
const or32 = (a: number, b: number) => a | b;
const xor32 = (a: number, b: number) => a ^ b;

function exactAnd(a: number, b: number, type: AnyIntegerType): number {
  return type.bits <= 32 ? a & b : onHalves(a, b, and32);
}

function exactOr(a: number, b: number, type: AnyIntegerType): number {
  return type.bits <= 32 ? a | b : onHalves(a, b, or32);
}

function exactXor(a: number, b: number, type: AnyIntegerType): number {
  return type.bits <= 32 ? a ^ b : onHalves(a, b, xor32);
}

export function and(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && b.min === b.max && type.bits <= 32) return constant(a.min & b.min, type);
  return pairwise(a, b, type, exactAnd) ?? combined("and", a, b, bits.and(a, b), type);
}

export function or(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && b.min === b.max && type.bits <= 32) return constant(a.min | b.min, type);
  return pairwise(a, b, type, exactOr) ?? combined("or", a, b, bits.or(a, b), type);
}

export function xor(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && b.min === b.max && type.bits <= 32) return constant(a.min ^ b.min, type);
  return pairwise(a, b, type, exactXor) ?? combined("xor", a, b, bits.xor(a, b), type);
}

function combined(
  operation: BitOperation,
  a: AbstractInteger,
  b: AbstractInteger,
  known: bits.KnownBits,
  type: AnyIntegerType,
): AbstractInteger {
  const bounds = boundsOf(operation, a, b, type);
  return settled(bounds.min, bounds.max, known.zeros, known.ones, type)!;
}

export function not(a: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === a.max && type.bits <= 32) return constant(~a.min, type);
  if (a.values !== null && (type.signed || type.bits <= 32)) {
    const sum = type.signed ? -1 : highest(type);
    return listed(a.values.map((value) => sum - value).reverse(), type);
  }
  const bounds = interval.not(a, type);
  return settled(bounds.min, bounds.max, a.ones, a.zeros, type)!;
}

function shiftedLeft(a: number, count: number, type: AnyIntegerType): number {
  return type.bits <= 32 ? a << count : a * power(count);
}

function shiftedRight(a: number, count: number): number {
  return Math.floor(a / power(count));
}

function defined(count: AbstractInteger, type: AnyIntegerType): boolean {
  return count.min >= 0 && count.max < type.bits;
}

/**
 * `b` is the count, of any type. A count below 0 or not below the width is undefined behaviour (avr-gcc gives now 0,
 * now a shift by the count's low byte): where one is possible anything may come, unless `a` is 0.
 */
export function shl(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === 0 && a.max === 0) return a;
  if (!defined(b, type)) return top(type);
  if (a.min === a.max && b.min === b.max && type.bits <= 32) return constant(a.min << b.min, type);
  const exact = pairwise(a, b, type, shiftedLeft);
  if (exact !== null) return exact;
  return joined(
    counts(b),
    (count) => {
      const bounds = interval.shl(a, count, type);
      const known = bits.shl(a, count, type);
      return settled(bounds.min, bounds.max, known.zeros, known.ones, type)!;
    },
    join,
  );
}

/** Copies of the sign come in where the type is signed (as avr-gcc does it). Counts as in `shl`. */
export function shr(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  if (a.min === 0 && a.max === 0) return a;
  if (!defined(b, type)) return top(type);
  if (a.min === a.max && b.min === b.max) return constant(shiftedRight(a.min, b.min), type);
  const exact = pairwise(a, b, type, shiftedRight);
  if (exact !== null) return exact;
  return joined(
    counts(b),
    (count) => {
      const bounds = interval.shr(a, count, type);
      const known = bits.shr(a, count, type);
      return settled(bounds.min, bounds.max, known.zeros, known.ones, type)!;
    },
    join,
  );
}

/** Every count, one by one: there are fewer than 64. */
function counts(b: AbstractInteger): readonly number[] {
  if (b.values !== null) return b.values;
  const all: number[] = [];
  for (let count = b.min; count <= b.max; count++) if (bits.contains(b, count)) all.push(count);
  return all;
}
