/** The integer types of C on an 8-bit AVR: their ranges, masks and wrap-around. Knows nothing of abstract values. */

/** Width in bits and sign. Types of C are `IntegerType`; the laws are also checked at widths of 3 and 4 bits. */
export interface AnyIntegerType {
  readonly bits: number;
  readonly signed: boolean;
}

/** char and int8_t have 8 bits, int 16, long 32, long long 64 (avr-gcc's ABI). */
export interface IntegerType extends AnyIntegerType {
  readonly bits: 8 | 16 | 32 | 64;
}

/** The largest integer up to which every integer is exact in a double. */
export const SAFE = Number.MAX_SAFE_INTEGER;

const POWERS: readonly number[] = Array.from({ length: 65 }, (_, exponent) => 2 ** exponent);
const MASKS: readonly number[] = Array.from({ length: 65 }, (_, bits) => (bits >= 32 ? 0xffffffff : 2 ** bits - 1));
const UNSIGNED_ENDS: readonly number[] = POWERS.map((power, bits) => (bits > 53 ? power : power - 1));
const SIGNED_ENDS: readonly number[] = POWERS.map((power, bits) => (bits > 53 ? power / 2 : power / 2 - 1));
const SIGNED_STARTS: readonly number[] = POWERS.map((power) => -power / 2);

/** Two to the power of `exponent`, 0..64. */
export function power(exponent: number): number {
  return POWERS[exponent]!;
}

/** The bits of the representation that masks speak about: the low 32 at most. */
export function maskOf(type: AnyIntegerType): number {
  return MASKS[type.bits]!;
}

export function lowest(type: AnyIntegerType): number {
  return type.signed ? SIGNED_STARTS[type.bits]! : 0;
}

/** The type's greatest value. For 64 bits it is no double: 2^63 and 2^64 stand for it. */
export function highest(type: AnyIntegerType): number {
  return type.signed ? SIGNED_ENDS[type.bits]! : UNSIGNED_ENDS[type.bits]!;
}

/**
 * An exact integer reduced to the type's range, modulo 2^bits. For 64 bits the answer is NaN where it is beyond
 * ±(2^53 − 1) and so cannot be exact; narrower types always get an exact answer for an exact `value`.
 */
export function wrap(value: number, type: AnyIntegerType): number {
  const bits = type.bits;
  if (bits <= 32) {
    const spare = 32 - bits;
    return type.signed ? (value << spare) >> spare : (value << spare) >>> spare;
  }
  return value <= SAFE && value >= (type.signed ? -SAFE : 0) ? value : Number.NaN;
}

/** `uint8_t`, `int16_t` …, as stdint.h would call it. */
export function typeName(type: AnyIntegerType): string {
  return `${type.signed ? "" : "u"}int${type.bits}_t`;
}
