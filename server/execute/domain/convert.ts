/** Conversions between C's integer types, and making abstract integers from what is known of them. */

import * as bits from "./bits.js";
import { insert } from "./few.js";
import { type AnyIntegerType, highest, lowest, maskOf, wrap } from "./integer-type.js";
import * as interval from "./interval.js";
import { type AbstractInteger, constant, listed, settled, top } from "./product.js";

/** All of min..max; bounds outside the type are cut to it, and an empty range means nothing is known. */
export function range(min: number, max: number, type: AnyIntegerType): AbstractInteger {
  return settled(Math.max(min, lowest(type)), Math.min(max, highest(type)), 0, 0, type) ?? top(type);
}

/** Any number of values in any order, each wrapped to the type. None means nothing is known. */
export function fromValues(list: readonly number[], type: AnyIntegerType): AbstractInteger {
  if (list.length === 0) return top(type);
  const sorted: number[] = [];
  for (const value of list) {
    const fitting = wrap(value, type);
    if (Number.isNaN(fitting)) return top(type);
    sorted.push(fitting + 0);
  }
  sorted.sort((a, b) => a - b);
  return listed(
    sorted.filter((value, at) => at === 0 || value !== sorted[at - 1]),
    type,
  );
}

/** Known bits alone; a bit said to be both 0 and 1 counts as not known. */
export function fromBits(zeros: number, ones: number, type: AnyIntegerType): AbstractInteger {
  const sure = maskOf(type) & ~(zeros & ones);
  return settled(lowest(type), highest(type), (zeros & sure) >>> 0, (ones & sure) >>> 0, type)!;
}

/** C's conversion: the same number where it fits, else modulo 2^bits (avr-gcc does so for signed targets too). */
export function convert(value: AbstractInteger, from: AnyIntegerType, to: AnyIntegerType): AbstractInteger {
  const { min, max } = value;
  if (min === max) return min >= lowest(to) && min <= highest(to) && from.bits === to.bits ? value : constant(min, to);
  if (from.bits === to.bits && from.signed === to.signed) return value;
  if (from.bits > 32 || to.bits > 32) return convertWide(value, from, to);
  const fits = min >= lowest(to) && max <= highest(to);
  if (fits && from.bits === to.bits) return value;
  if (!fits && value.values !== null) return wrapEach(value.values, to);
  const known = to.bits > from.bits ? bits.extend(value, from, to) : bits.cut(value, to);
  if (fits) return { min, max, zeros: known.zeros, ones: known.ones, values: value.values };
  const bounds = interval.wrapped(min, max, to);
  return settled(bounds.min, bounds.max, known.zeros, known.ones, to)!;
}

function wrapEach(values: readonly number[], to: AnyIntegerType): AbstractInteger {
  const found: number[] = [];
  for (const value of values) insert(found, wrap(value, to));
  return listed(found, to);
}

/** From or to 64 bits. The masks speak about the low 32 bits, so they stay as they are between 32 bits and 64. */
function convertWide(value: AbstractInteger, from: AnyIntegerType, to: AnyIntegerType): AbstractInteger {
  if (value.values?.every((each) => !Number.isNaN(wrap(each, to)))) return wrapEach(value.values, to);
  const known = to.bits > from.bits ? bits.extend(value, from, to) : bits.cut(value, to);
  const bounds =
    value.min >= lowest(to) && value.max <= highest(to)
      ? interval.rounded(value.min, value.max, to)
      : interval.wrapped(value.min, value.max, to);
  return settled(bounds.min, bounds.max, known.zeros, known.ones, to)!;
}

const BYTE: AnyIntegerType = { bits: 8, signed: false };

/** C's conversion to bool: 0 or 1 in an 8-bit unsigned type. */
export function toBoolean(value: AbstractInteger): AbstractInteger {
  const known = truth(value);
  return known === null ? range(0, 1, BYTE) : constant(known ? 1 : 0, BYTE);
}

/** Is it non-zero? Null where it may be either. */
export function truth(a: AbstractInteger): boolean | null {
  if (a.min > 0 || a.max < 0 || a.ones !== 0) return true;
  if (a.max === 0 && a.min === 0) return false;
  return a.values === null || a.values.includes(0) ? null : true;
}
