/** Operations on small sets, value by value. Exact; used where the pairs are few enough. Knows no operation by name. */

import { FEW, insert } from "./few.js";
import { type AnyIntegerType, maskOf, wrap } from "./integer-type.js";
import { type AbstractInteger, listed, settled } from "./product.js";

/** How many pairs of values are tried one by one. */
export const PAIRS = 256;

/** Unsigned 32-bit and signed results alike are wrapped here; NaN = not exact. */
export type Scalar = (a: number, b: number, type: AnyIntegerType) => number;

/**
 * The results of all pairs. Null where the operands are too many or some result is not exact; then the caller's
 * bounds and bits have to do. `skipZero` leaves 0 out of the second operand.
 */
export function pairwise(
  a: AbstractInteger,
  b: AbstractInteger,
  type: AnyIntegerType,
  scalar: Scalar,
  skipZero = false,
): AbstractInteger | null {
  const left = a.values;
  const right = b.values;
  if (left === null || right === null || left.length * right.length > PAIRS) return null;
  const found: number[] = [];
  const mask = maskOf(type);
  let many = false;
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  let zeros = mask;
  let ones = mask;
  for (let of = 0; of < right.length; of++) {
    const y = right[of]!;
    if (skipZero && y === 0) continue;
    for (let at = 0; at < left.length; at++) {
      const value = wrap(scalar(left[at]!, y, type), type);
      if (Number.isNaN(value)) return null;
      if (!many) {
        insert(found, value + 0);
        many = found.length > FEW;
      }
      if (value < min) min = value;
      if (value > max) max = value;
      zeros &= ~value;
      ones &= value;
    }
  }
  if (found.length === 0) return null;
  return many ? settled(min + 0, max + 0, zeros >>> 0, ones >>> 0, type) : listed(found, type);
}

/** One operand's values one by one against the whole of the other: for operations that need a known right operand. */
export function joined(
  values: readonly number[],
  each: (value: number) => AbstractInteger,
  join: (a: AbstractInteger, b: AbstractInteger) => AbstractInteger,
): AbstractInteger {
  let all = each(values[0]!);
  for (let at = 1; at < values.length; at++) all = join(all, each(values[at]!));
  return all;
}
