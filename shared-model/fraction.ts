/** Exact ratios of integers. Frequencies and duties stay fractions until they are shown (design section 4). */

/** A non-negative ratio in lowest terms; `den` is at least 1. Both stay below 2^53 for every timer carried. */
export interface Fraction {
  readonly num: number;
  readonly den: number;
}

/** The ratio `num / den` in lowest terms. Throws RangeError when `den` is not a positive integer. */
export function fraction(num: number, den = 1): Fraction {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || den <= 0) {
    throw new RangeError(`not an exact ratio: ${num}/${den}`);
  }
  const divisor = greatestCommonDivisor(Math.abs(num), den) || 1;
  return { num: num / divisor, den: den / divisor };
}

/** The nearest double: for showing and for comparing with a tolerance, never for further exact work. */
export function toNumber(value: Fraction): number {
  return value.num / value.den;
}

/** Negative, zero or positive as `left` is below, equal to or above `right`; exact. */
export function compareFractions(left: Fraction, right: Fraction): number {
  const difference = BigInt(left.num) * BigInt(right.den) - BigInt(right.num) * BigInt(left.den);
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

function greatestCommonDivisor(a: number, b: number): number {
  while (b !== 0) {
    [a, b] = [b, a % b];
  }
  return a;
}
