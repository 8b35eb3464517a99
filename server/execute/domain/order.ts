/** The product as a lattice: order, join, meet, widening, and how a value is shown. Knows no operation of C. */

import * as bits from "./bits.js";
import { plain } from "./dependence.js";
import * as few from "./few.js";
import { type AnyIntegerType, highest, lowest } from "./integer-type.js";
import * as interval from "./interval.js";
import { type AbstractInteger, listed, settled, top } from "./product.js";

export function isSingle(a: AbstractInteger): boolean {
  return a.min === a.max;
}

export function contains(a: AbstractInteger, value: number): boolean {
  if (value < a.min || value > a.max) return false;
  return a.values === null ? bits.contains(a, value) : few.contains(a.values, value);
}

/** All possible values, ascending; null where they are not few. */
export function members(a: AbstractInteger): readonly number[] | null {
  return a.values;
}

/** How many values are possible: exact where they are few, else an upper bound. */
export function size(a: AbstractInteger): number {
  if (a.values !== null) return a.values.length;
  return Math.floor((a.max - a.min) / 2 ** bits.lengthOfOnes(a.zeros | a.ones)) + 1;
}

export function equal(a: AbstractInteger, b: AbstractInteger): boolean {
  if (a === b) return true;
  if (a.min !== b.min || a.max !== b.max || a.zeros !== b.zeros || a.ones !== b.ones) return false;
  return few.equal(a.values, b.values);
}

export function leq(a: AbstractInteger, b: AbstractInteger): boolean {
  if (a === b) return true;
  if (a.min < b.min || a.max > b.max) return false;
  return b.values === null ? bits.leq(a, b) : few.leq(a.values, b.values);
}

/** Gives back one of its operands, itself, where that one holds the other; but not what it depends on. */
export function join(a: AbstractInteger, b: AbstractInteger): AbstractInteger {
  if (a === b) return a;
  if (leq(b, a)) return plain(a);
  if (leq(a, b)) return plain(b);
  return {
    min: Math.min(a.min, b.min),
    max: Math.max(a.max, b.max),
    zeros: (a.zeros & b.zeros) >>> 0,
    ones: (a.ones & b.ones) >>> 0,
    values: few.join(a.values, b.values),
  };
}

export function meet(a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType): AbstractInteger | null {
  if (leq(a, b)) return a;
  if (leq(b, a)) return b;
  if (a.values !== null) return keep(a, type, (value) => contains(b, value));
  if (b.values !== null) return keep(b, type, (value) => contains(a, value));
  return settled(
    Math.max(a.min, b.min),
    Math.min(a.max, b.max),
    (a.zeros | b.zeros) >>> 0,
    (a.ones | b.ones) >>> 0,
    type,
  );
}

/** Those of a small set's values that pass; null where none does. */
export function keep(
  a: AbstractInteger,
  type: AnyIntegerType,
  passes: (value: number) => boolean,
): AbstractInteger | null {
  const kept = a.values!.filter(passes);
  if (kept.length === a.values!.length) return a;
  return kept.length === 0 ? null : listed(kept, type);
}

/**
 * Holds `before` and `after`, and gives `before` itself where nothing new came. The first rounds join; then bounds that
 * still move climb to thresholds: ends of the C types and of the timers' counters, and `constants` with their
 * neighbours. From `interval.LAST_ROUND` on the whole type is taken.
 *
 * Where a bound climbs, bits that were known merely because the bound was near are let go (else they would pull it
 * back); what stays are the low bits up to the first free one: the stride of a counter.
 */
export function widen(
  before: AbstractInteger,
  after: AbstractInteger,
  round: number,
  type: AnyIntegerType,
  constants: readonly number[] = [],
): AbstractInteger {
  if (before === after) return before;
  if (leq(after, before)) return plain(before);
  if (round < interval.JOIN_ROUNDS) return join(before, after);
  if (round >= interval.LAST_ROUND) return top(type);
  const both = join(before, after);
  const bounds = interval.widen(before, after, round, type, constants);
  if (bounds.min === before.min && bounds.max === before.max) {
    if (few.widen(before.values, after.values, round, type) !== null) return both;
    return settled(both.min, both.max, both.zeros, both.ones, type)!;
  }
  const stride = bits.lowMask(bits.lengthOfOnes(both.zeros | both.ones));
  return settled(bounds.min, bounds.max, (both.zeros & stride) >>> 0, (both.ones & stride) >>> 0, type)!;
}

/** One step back from a widened value: what a further turn of the loop still allows. Null where that is nothing. */
export function narrow(before: AbstractInteger, after: AbstractInteger, type: AnyIntegerType): AbstractInteger | null {
  return meet(before, after, type);
}

/** Few enough to be read at a glance. */
const LISTED = 8;

/** `3`, `{1, 2, 4}`, `0..248`, `0..248 (0b______00)`, `any uint8_t`. */
export function show(a: AbstractInteger, type: AnyIntegerType): string {
  const loose = settled(a.min, a.max, a.zeros, a.ones, type)!;
  if (a.values !== null && (a.values.length <= LISTED || !equal(a, loose))) return few.show(a.values, type);
  const known = a.zeros | a.ones;
  if (a.min === lowest(type) && a.max === highest(type) && known === 0) {
    return `any ${type.signed ? "" : "u"}int${type.bits}_t`;
  }
  const told = settled(a.min, a.max, 0, 0, type)!;
  const bounds = interval.show(a, type);
  return (told.zeros | told.ones) === known ? bounds : `${bounds} (${bits.show(a, type)})`;
}

export function whyNotLeq(a: AbstractInteger, b: AbstractInteger): string | null {
  if (leq(a, b)) return null;
  const of = a.values !== null ? a.values.find((value) => !contains(b, value)) : undefined;
  return (
    interval.whyNotLeq(a, b) ??
    (of !== undefined ? `${of} is not among the values` : null) ??
    bits.whyNotLeq(a, b) ??
    few.whyNotLeq(a.values, b.values)
  );
}

/** Exactly one value. */
export function holdsOnly(a: AbstractInteger, value: number): boolean {
  return a.min === value && a.max === value;
}
