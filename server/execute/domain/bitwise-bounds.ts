/**
 * Bounds of & | ^ over two intervals. For unsigned operands of up to 32 bits they are the tightest there are: from the
 * top bit down, the first place where one operand's bound can be exchanged for a rounder number decides (a well-known
 * method; from memory, checked exhaustively in test/laws). Signed operands are cut at zero and each half taken alone.
 */

import { type AnyIntegerType, highest, lowest, power, SAFE } from "./integer-type.js";
import { type Interval, join, rounded } from "./interval.js";

export type BitOperation = "and" | "or" | "xor";

export function boundsOf(operation: BitOperation, a: Interval, b: Interval, type: AnyIntegerType): Interval {
  if (type.bits > 32) return wideBounds(operation, a, b, type);
  const modulus = power(type.bits);
  let all: Interval | null = null;
  for (let half = 0; half < 4; half++) {
    const left = halfOf(a, (half & 1) !== 0);
    const right = halfOf(b, (half & 2) !== 0);
    if (left === null || right === null) continue;
    const shiftLeft = left.min < 0 ? modulus : 0;
    const shiftRight = right.min < 0 ? modulus : 0;
    let { min, max } = unsignedBounds(
      operation,
      left.min + shiftLeft,
      left.max + shiftLeft,
      right.min + shiftRight,
      right.max + shiftRight,
    );
    if (min > highest(type)) {
      min -= modulus;
      max -= modulus;
    }
    all = all === null ? { min, max } : join(all, { min, max });
  }
  return all!;
}

/** The part below zero, or the part from zero on. */
function halfOf(a: Interval, negative: boolean): Interval | null {
  if (negative) return a.min < 0 ? { min: a.min, max: Math.min(a.max, -1) } : null;
  return a.max >= 0 ? { min: Math.max(a.min, 0), max: a.max } : null;
}

function unsignedBounds(operation: BitOperation, a: number, b: number, c: number, d: number): Interval {
  switch (operation) {
    case "or":
      return { min: leastOr(a, b, c, d), max: mostOr(a, b, c, d) };
    case "and": {
      const max = ~leastOr(~b >>> 0, ~a >>> 0, ~d >>> 0, ~c >>> 0) >>> 0;
      return { min: ~mostOr(~b >>> 0, ~a >>> 0, ~d >>> 0, ~c >>> 0) >>> 0, max };
    }
    case "xor":
      return { min: leastXor(a, b, c, d), max: mostXor(a, b, c, d) };
  }
}

/** The highest bit in which a set bit can matter. */
function startBit(b: number, d: number): number {
  const either = b | d;
  return either === 0 ? 0 : (1 << (31 - Math.clz32(either))) >>> 0;
}

/** Least x | y for a ≤ x ≤ b, c ≤ y ≤ d. */
function leastOr(a: number, b: number, c: number, d: number): number {
  for (let bit = startBit(b, d); bit !== 0; bit >>>= 1) {
    if ((~a & c & bit) !== 0) {
      const rounder = ((a | bit) & -bit) >>> 0;
      if (rounder <= b) return (rounder | c) >>> 0;
    } else if ((a & ~c & bit) !== 0) {
      const rounder = ((c | bit) & -bit) >>> 0;
      if (rounder <= d) return (a | rounder) >>> 0;
    }
  }
  return (a | c) >>> 0;
}

function mostOr(a: number, b: number, c: number, d: number): number {
  for (let bit = startBit(b, d); bit !== 0; bit >>>= 1) {
    if ((b & d & bit) === 0) continue;
    const fullerLeft = ((b - bit) | (bit - 1)) >>> 0;
    if (fullerLeft >= a) return (fullerLeft | d) >>> 0;
    const fullerRight = ((d - bit) | (bit - 1)) >>> 0;
    if (fullerRight >= c) return (b | fullerRight) >>> 0;
  }
  return (b | d) >>> 0;
}

function leastXor(from: number, b: number, start: number, d: number): number {
  let a = from;
  let c = start;
  for (let bit = startBit(b, d); bit !== 0; bit >>>= 1) {
    if ((~a & c & bit) !== 0) {
      const rounder = ((a | bit) & -bit) >>> 0;
      if (rounder <= b) a = rounder;
    } else if ((a & ~c & bit) !== 0) {
      const rounder = ((c | bit) & -bit) >>> 0;
      if (rounder <= d) c = rounder;
    }
  }
  return (a ^ c) >>> 0;
}

function mostXor(a: number, to: number, c: number, end: number): number {
  let b = to;
  let d = end;
  for (let bit = startBit(b, d); bit !== 0; bit >>>= 1) {
    if ((b & d & bit) === 0) continue;
    const fullerLeft = ((b - bit) | (bit - 1)) >>> 0;
    if (fullerLeft >= a) {
      b = fullerLeft;
    } else {
      const fullerRight = ((d - bit) | (bit - 1)) >>> 0;
      if (fullerRight >= c) d = fullerRight;
    }
  }
  return (b ^ d) >>> 0;
}

/** 64 bits: rough, by sign and by the power of two above the greater operand. */
function wideBounds(operation: BitOperation, a: Interval, b: Interval, type: AnyIntegerType): Interval {
  const most = Math.max(a.max, b.max);
  let above = 1;
  while (above <= most && above <= SAFE) above *= 2;
  const ceiling = above > SAFE ? highest(type) : above - 1;
  if (operation === "and") {
    if (a.min >= 0 || b.min >= 0) {
      const max = Math.min(a.min >= 0 ? a.max : highest(type), b.min >= 0 ? b.max : highest(type));
      return rounded(0, max, type);
    }
  } else if (a.min >= 0 && b.min >= 0) {
    return rounded(operation === "or" ? Math.max(a.min, b.min) : 0, ceiling, type);
  }
  return { min: lowest(type), max: highest(type) };
}
