/**
 * The product of known bits, bounds and small sets: its canonical form and how it is made. Every value of the product
 * comes from here. Knows no operation of C.
 */

import type { Dependence } from "./dependence.js";
import { FEW } from "./few.js";
import { type AnyIntegerType, highest, lowest, maskOf, power, SAFE, wrap } from "./integer-type.js";
import { rounded } from "./interval.js";
import { nextWith, previousWith, rankAmong, sharedPrefix } from "./reduce/bits-interval.js";
import { sharedBits } from "./reduce/few-bits.js";

/**
 * A non-empty set of integers of one C type. All bounds inclusive; `zeros` and `ones` are unsigned masks of bits known
 * to be 0 and 1 in the low 32 bits of the two's complement representation, nothing above the width; `values` lists
 * every possible value, ascending, exactly where they are at most `FEW`.
 *
 * Canonical: the same set always looks the same. Where `values` is null the set is "all between min and max with these
 * bits", min and max belong to it, and no further bit is known. Of 64-bit types see `Interval` for what is exact.
 */
export interface AbstractInteger {
  readonly min: number;
  readonly max: number;
  readonly zeros: number;
  readonly ones: number;
  readonly values: readonly number[] | null;
  /** What it is a function of, where that is one reading. Not part of the set: equal values may differ in it. */
  readonly by?: Dependence;
}

/** The only maker of such objects, so that the engine's hottest code sees one shape. */
function make(
  min: number,
  max: number,
  zeros: number,
  ones: number,
  values: readonly number[] | null,
): AbstractInteger {
  return { min, max, zeros, ones, values };
}

/** Constants are shared: a slot each for the last value seen with the same low bits, per width of the representation. */
const SLOTS = 4096;
const recent: (AbstractInteger | undefined)[][] = Array.from({ length: 33 }, () => []);

function slotsOf(bits: number): (AbstractInteger | undefined)[] {
  const slots = recent[Math.min(bits, 32)]!;
  if (slots.length === 0) for (let at = 0; at < SLOTS; at++) slots.push(undefined);
  return slots;
}

/** One exact value that is in the type's range. */
function single(value: number, type: AnyIntegerType): AbstractInteger {
  const slots = slotsOf(type.bits);
  const slot = value & (SLOTS - 1);
  const known = slots[slot];
  if (known !== undefined && known.min === value) return known;
  const mask = maskOf(type);
  const made = make(value, value, (~value & mask) >>> 0, (value & mask) >>> 0, [value]);
  slots[slot] = made;
  return made;
}

/**
 * An exact integer, wrapped to the type. A 64-bit value beyond ±(2^53 − 1) is not exact: the answer is a range that
 * reaches to the type's end, with the low 32 bits where `value` itself was exact.
 */
export function constant(value: number, type: AnyIntegerType): AbstractInteger {
  const fitting = wrap(value, type);
  if (!Number.isNaN(fitting)) return single(fitting + 0, type);
  // A negative number as an unsigned one is 2^64 less a little.
  if (value >= -SAFE && value < 0) return settled(SAFE, highest(type), ~value >>> 0, value >>> 0, type)!;
  return value >= lowest(type) && value <= highest(type) ? settled(value, value, 0, 0, type)! : top(type);
}

const tops = new Map<number, AbstractInteger>();

/** Every value of the type. */
export function top(type: AnyIntegerType): AbstractInteger {
  const key = type.signed ? -type.bits : type.bits;
  let made = tops.get(key);
  if (made === undefined) {
    made = settled(lowest(type), highest(type), 0, 0, type)!;
    tops.set(key, made);
  }
  return made;
}

/** The canonical form of a small set: ascending values of the type, without repeats, at least one, any number. */
export function listed(values: readonly number[], type: AnyIntegerType): AbstractInteger {
  if (values.length === 1) return single(values[0]!, type);
  const min = values[0]!;
  const max = values[values.length - 1]!;
  const { zeros, ones } = sharedBits(values, type);
  if (values.length > FEW) return settled(min, max, zeros, ones, type)!;
  return make(min, max, zeros, ones, values);
}

/** The canonical form of "between min and max, within the type, with these bits"; null where nothing is. */
export function settled(
  min: number,
  max: number,
  zeros: number,
  ones: number,
  type: AnyIntegerType,
): AbstractInteger | null {
  if ((zeros & ones) !== 0 || min > max) return null;
  if (type.bits > 32) return settledWide(min, max, zeros, ones, type);
  if (min === max) return (min & zeros) !== 0 || (~min & ones) !== 0 ? null : single(min, type);
  // Order of values = order of unsigned numbers once the sign bit is turned over.
  const mask = maskOf(type);
  const sign = type.signed ? 1 << (type.bits - 1) : 0;
  let zero = (zeros & ~sign) | (ones & sign);
  let one = (ones & ~sign) | (zeros & sign);
  let low = ((min & mask) ^ sign) >>> 0;
  let high = ((max & mask) ^ sign) >>> 0;
  if ((zero | one) !== 0) {
    low = nextWith(low, zero | ~mask, one);
    high = previousWith(high, zero | ~mask, one);
    if (low < 0 || high < 0 || low > high) return null;
  }
  const offset = lowest(type);
  if (low === high) return single(low + offset, type);
  const prefix = sharedPrefix(low, high) & mask;
  zero |= ~low & prefix;
  one |= low & prefix;
  const free = ~(zero | one) & mask;
  let count = high - low + 1;
  if (count > FEW && free !== (~prefix & mask)) count = rankAmong(high, free) - rankAmong(low, free) + 1;
  let values: number[] | null = null;
  if (count <= FEW) {
    values = [];
    for (let at = low; at >= 0 && at <= high; at = nextWith(at + 1, zero | ~mask, one)) {
      values.push(at + offset);
      if (at === high) break;
    }
  }
  return make(
    low + offset,
    high + offset,
    ((zero & ~sign) | (one & sign)) >>> 0,
    ((one & ~sign) | (zero & sign)) >>> 0,
    values,
  );
}

/** The same for widths past 32, of which only the low 32 bits have masks. */
function settledWide(
  least: number,
  most: number,
  zeros: number,
  ones: number,
  type: AnyIntegerType,
): AbstractInteger | null {
  const bounds = rounded(least, most, type);
  const lowEnd = bounds.min < -SAFE;
  const highEnd = bounds.max > SAFE;
  let min = lowEnd ? bounds.min : nextWide(bounds.min, zeros, ones);
  let max = highEnd ? bounds.max : -nextWide(-bounds.max - 1, ones, zeros) - 1;
  if (min > SAFE) {
    if (!highEnd) return null;
    min = SAFE;
  }
  if (max < -SAFE) {
    if (!lowEnd) return null;
    max = -SAFE;
  }
  if (min > max) return null;
  if (lowEnd || highEnd) return make(min, max, zeros, ones, null);
  if (min === max) return single(min, type);
  const lowHigh = Math.floor(min / power(32));
  if (lowHigh === Math.floor(max / power(32))) {
    const prefix = sharedPrefix(min >>> 0, max >>> 0);
    zeros = (zeros | (~min & prefix)) >>> 0;
    ones = (ones | (min & prefix)) >>> 0;
  }
  const values: number[] = [];
  for (let at = min; at <= max; at = nextWide(at + 1, zeros, ones)) {
    if (values.length === FEW) return make(min, max, zeros, ones, null);
    values.push(at);
  }
  return listed(values, type);
}

/** The smallest integer not below `from` whose low 32 bits are as known. */
function nextWide(from: number, zeros: number, ones: number): number {
  const upper = Math.floor(from / power(32));
  const low = nextWith(from >>> 0, zeros, ones);
  return low < 0 ? (upper + 1) * power(32) + ones : upper * power(32) + low;
}
