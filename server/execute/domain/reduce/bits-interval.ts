/**
 * What known bits and bounds tell each other: the bounds move inwards to the nearest values that have the known bits,
 * then the leading bits that both bounds share become known. Only shrinks; keeps every value that satisfies both.
 *
 * One pass is enough: the new bounds are values of the set, and of two values that differ first in bit p the set holds
 * (between them) one with every free bit below p set and one with it clear, so no more bits can be learned.
 */

/** The smallest number not below `from` that has the known bits, all unsigned 32 bits wide; −1 where there is none. */
export function nextWith(from: number, zeros: number, ones: number): number {
  const wrong = (from & zeros) | (~from & ones);
  if (wrong === 0) return from;
  const at = 31 - Math.clz32(wrong);
  const bit = (1 << at) >>> 0;
  const below = bit - 1;
  // The highest wrong bit is a 0 that must be 1: setting it is enough of a step upwards.
  if ((ones & bit) !== 0) return ((from & ~below) | bit | (ones & below)) >>> 0;
  // It is a 1 that must be 0: a free 0 above it has to become 1.
  const free = ~from & ~zeros & ~ones & ~below;
  if (free === 0) return -1;
  const carry = free & -free;
  const underCarry = carry - 1;
  return ((from & ~underCarry) | carry | (ones & underCarry)) >>> 0;
}

/** The greatest number not above `from` that has the known bits; −1 where there is none. */
export function previousWith(from: number, zeros: number, ones: number): number {
  const mirrored = nextWith(~from >>> 0, ones, zeros);
  return mirrored < 0 ? -1 : ~mirrored >>> 0;
}

/** A mask of the leading bits that two unsigned 32-bit numbers share. */
export function sharedPrefix(low: number, high: number): number {
  const differing = low ^ high;
  if (differing === 0) return 0xffffffff;
  const length = Math.clz32(differing);
  return length === 0 ? 0 : (-1 << (32 - length)) >>> 0;
}

/** The free bits of a number pushed together: its rank among all numbers with the same known bits. */
export function rankAmong(value: number, free: number): number {
  let rank = 0;
  let place = 1;
  for (let left = free; left !== 0; left &= left - 1) {
    if ((value & (left & -left)) !== 0) rank += place;
    place *= 2;
  }
  return rank;
}
