/** The domain of known bits: which bits of the representation are certainly 0, and which certainly 1. */

import { type AnyIntegerType, maskOf } from "./integer-type.js";

/** Disjoint unsigned masks over the low 32 bits of the two's complement representation; nothing above the width. */
export interface KnownBits {
  readonly zeros: number;
  readonly ones: number;
}

export function top(_type: AnyIntegerType): KnownBits {
  return { zeros: 0, ones: 0 };
}

export function ofValue(value: number, type: AnyIntegerType): KnownBits {
  const mask = maskOf(type);
  return { zeros: (~value & mask) >>> 0, ones: (value & mask) >>> 0 };
}

export function contains(a: KnownBits, value: number): boolean {
  return (value & a.zeros) === 0 && (~value & a.ones) === 0;
}

export function leq(a: KnownBits, b: KnownBits): boolean {
  return (b.zeros & ~a.zeros) === 0 && (b.ones & ~a.ones) === 0;
}

export function equal(a: KnownBits, b: KnownBits): boolean {
  return a.zeros === b.zeros && a.ones === b.ones;
}

export function join(a: KnownBits, b: KnownBits): KnownBits {
  return { zeros: (a.zeros & b.zeros) >>> 0, ones: (a.ones & b.ones) >>> 0 };
}

export function meet(a: KnownBits, b: KnownBits, _type: AnyIntegerType): KnownBits | null {
  const zeros = (a.zeros | b.zeros) >>> 0;
  const ones = (a.ones | b.ones) >>> 0;
  return (zeros & ones) !== 0 ? null : { zeros, ones };
}

/** A known bit can be lost but once, so joining ends by itself. */
export function widen(before: KnownBits, after: KnownBits, _round: number, _type: AnyIntegerType): KnownBits {
  return join(before, after);
}

/** `0b0011__00`, most significant bit first, `_` where not known. */
export function show(a: KnownBits, type: AnyIntegerType): string {
  let text = "0b";
  for (let at = Math.min(type.bits, 32) - 1; at >= 0; at--) {
    text += (a.ones >>> at) & 1 ? "1" : (a.zeros >>> at) & 1 ? "0" : "_";
  }
  return text;
}

export function whyNotLeq(a: KnownBits, b: KnownBits): string | null {
  for (let at = 0; at < 32; at++) {
    const bit = 1 << at;
    if ((b.zeros & bit) !== 0 && (a.zeros & bit) === 0) return `bit ${at} may be 1`;
    if ((b.ones & bit) !== 0 && (a.ones & bit) === 0) return `bit ${at} may be 0`;
  }
  return null;
}

/** How many low bits are certainly 0. */
export function trailingZeros(zeros: number): number {
  return lengthOfOnes(zeros);
}

/** How many 1 bits a mask has in a row, from bit 0 upwards. */
export function lengthOfOnes(mask: number): number {
  const gap = ~mask;
  return gap === 0 ? 32 : 31 - Math.clz32(gap & -gap);
}

/** A mask of the `count` lowest bits. */
export function lowMask(count: number): number {
  return count >= 32 ? 0xffffffff : (1 << count) - 1;
}

export function and(a: KnownBits, b: KnownBits): KnownBits {
  return { zeros: (a.zeros | b.zeros) >>> 0, ones: (a.ones & b.ones) >>> 0 };
}

export function or(a: KnownBits, b: KnownBits): KnownBits {
  return { zeros: (a.zeros & b.zeros) >>> 0, ones: (a.ones | b.ones) >>> 0 };
}

export function xor(a: KnownBits, b: KnownBits): KnownBits {
  return {
    zeros: ((a.zeros & b.zeros) | (a.ones & b.ones)) >>> 0,
    ones: ((a.zeros & b.ones) | (a.ones & b.zeros)) >>> 0,
  };
}

export function not(a: KnownBits): KnownBits {
  return { zeros: a.ones, ones: a.zeros };
}

/**
 * A sum with a known carry into bit 0. The greatest and the smallest possible addends give the carries that can and
 * that must occur; a bit of the sum is known where both addends' bits and the carry into it are.
 */
function sum(a: KnownBits, b: KnownBits, carry: 0 | 1, type: AnyIntegerType): KnownBits {
  const mask = maskOf(type);
  const most = (~a.zeros & mask) + (~b.zeros & mask) + carry;
  const least = a.ones + b.ones + carry;
  const noCarry = ~(most ^ a.zeros ^ b.zeros);
  const sureCarry = least ^ a.ones ^ b.ones;
  const known = (a.zeros | a.ones) & (b.zeros | b.ones) & (noCarry | sureCarry) & mask;
  return { zeros: (~most & known) >>> 0, ones: (least & known) >>> 0 };
}

export function add(a: KnownBits, b: KnownBits, type: AnyIntegerType): KnownBits {
  return sum(a, b, 0, type);
}

export function sub(a: KnownBits, b: KnownBits, type: AnyIntegerType): KnownBits {
  return sum(a, not(b), 1, type);
}

/**
 * The low bits of a product: they follow from the low bits of the factors, and every 0 at the bottom of one factor
 * makes one more bit of the other count.
 */
export function mul(a: KnownBits, b: KnownBits, type: AnyIntegerType): KnownBits {
  const knownOfA = lengthOfOnes(a.zeros | a.ones);
  const knownOfB = lengthOfOnes(b.zeros | b.ones);
  const count = Math.min(knownOfA + trailingZeros(b.zeros), knownOfB + trailingZeros(a.zeros));
  const known = lowMask(count) & maskOf(type);
  const product = Math.imul(a.ones & lowMask(knownOfA), b.ones & lowMask(knownOfB));
  return { zeros: (~product & known) >>> 0, ones: (product & known) >>> 0 };
}

/** Shifted left by a known count below the width; zeros come in. */
export function shl(a: KnownBits, count: number, type: AnyIntegerType): KnownBits {
  const mask = maskOf(type);
  if (count >= 32) return { zeros: 0xffffffff, ones: 0 };
  return { zeros: (((a.zeros << count) | lowMask(count)) & mask) >>> 0, ones: ((a.ones << count) & mask) >>> 0 };
}

/**
 * Shifted right by a known count below the width; copies of the sign bit come in where the type is signed. Of a
 * 64-bit value only the low half is known, so nothing is known of what comes in.
 */
export function shr(a: KnownBits, count: number, type: AnyIntegerType): KnownBits {
  if (type.bits > 32) return count >= 32 ? top(type) : { zeros: a.zeros >>> count, ones: a.ones >>> count };
  const mask = maskOf(type);
  const come = (mask & ~(mask >>> count)) >>> 0;
  const sign = type.signed ? 1 << (type.bits - 1) : 0;
  const zeroComes = !type.signed || (a.zeros & sign) !== 0;
  const oneComes = (a.ones & sign) !== 0;
  return {
    zeros: ((a.zeros >>> count) | (zeroComes ? come : 0)) >>> 0,
    ones: ((a.ones >>> count) | (oneComes ? come : 0)) >>> 0,
  };
}

/** The low bits alone, as seen by a type that is not wider. */
export function cut(a: KnownBits, type: AnyIntegerType): KnownBits {
  const mask = maskOf(type);
  return { zeros: (a.zeros & mask) >>> 0, ones: (a.ones & mask) >>> 0 };
}

/** Extended to a wider type: zeros come in, or copies of the sign bit. */
export function extend(a: KnownBits, from: AnyIntegerType, to: AnyIntegerType): KnownBits {
  const come = (maskOf(to) & ~maskOf(from)) >>> 0;
  const sign = from.signed ? 1 << (Math.min(from.bits, 32) - 1) : 0;
  if (!from.signed || (a.zeros & sign) !== 0) return { zeros: (a.zeros | come) >>> 0, ones: a.ones };
  if ((a.ones & sign) !== 0) return { zeros: a.zeros, ones: (a.ones | come) >>> 0 };
  return a;
}
