/** The integer types of avr-gcc and C's conversions between them, as far as the generator needs them to stay well-defined. */

export interface IntType {
  readonly name: string;
  readonly bits: 8 | 16 | 32;
  readonly signed: boolean;
}

export const U8: IntType = { name: "uint8_t", bits: 8, signed: false };
export const I8: IntType = { name: "int8_t", bits: 8, signed: true };
export const U16: IntType = { name: "uint16_t", bits: 16, signed: false };
export const I16: IntType = { name: "int16_t", bits: 16, signed: true };
export const U32: IntType = { name: "uint32_t", bits: 32, signed: false };
export const I32: IntType = { name: "int32_t", bits: 32, signed: true };
export const ALL_TYPES = [U8, I8, U16, I16, U32, I32] as const;

/** Other spellings that people use for the same types. */
export const SPELLINGS: Readonly<Record<string, readonly string[]>> = {
  uint8_t: ["uint8_t", "byte", "unsigned char"],
  int8_t: ["int8_t", "signed char"],
  uint16_t: ["uint16_t", "unsigned int", "word", "unsigned"],
  int16_t: ["int16_t", "int", "int", "short"],
  uint32_t: ["uint32_t", "unsigned long"],
  int32_t: ["int32_t", "long"],
};

export function lowest(type: IntType): number {
  return type.signed ? -(2 ** (type.bits - 1)) : 0;
}

export function highest(type: IntType): number {
  return type.signed ? 2 ** (type.bits - 1) - 1 : 2 ** type.bits - 1;
}

/** Integer promotion: everything below int becomes int (16 bit). */
export function promote(type: IntType): IntType {
  return type.bits === 8 ? I16 : type;
}

/** The usual arithmetic conversions of two operands. */
export function common(left: IntType, right: IntType): IntType {
  const a = promote(left);
  const b = promote(right);
  if (a.bits !== b.bits) return a.bits > b.bits ? a : b;
  return a.signed ? b : a;
}

/** An expression's text with what is known of its value. */
export interface Expr {
  readonly text: string;
  readonly type: IntType;
  readonly min: number;
  readonly max: number;
  /** C's precedence: 16 primary, 15 unary, 13 multiplicative, 12 additive, 11 shift, 10 relational, 9 equality, 8 &, 7 ^, 6 |, 5 &&, 4 ||, 3 ?:. */
  readonly level: number;
}

/** The value range after conversion to `type`: unchanged where it fits, else everything. */
export function converted(min: number, max: number, type: IntType): { min: number; max: number } {
  if (min >= lowest(type) && max <= highest(type)) return { min, max };
  return { min: lowest(type), max: highest(type) };
}
