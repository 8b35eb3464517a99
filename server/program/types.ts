/**
 * Types as avr-gcc has them: 16-bit int, 32-bit long, 64-bit long long, double = float = 32 bit, 2-byte pointers,
 * no padding in records, plain char signed (avr-gcc manual, "AVR Options"; avr-libc FAQ).
 */
import type { IntegerType } from "../execute/domain/number.js";
import type { FunctionCode, RecordType } from "./ir.js";

export interface Enumeration {
  readonly scoped: boolean;
}

export type Type =
  | { readonly kind: "void" }
  | {
      readonly kind: "integer";
      readonly integer: IntegerType;
      readonly name: string;
      readonly bool: boolean;
      /** Set for enumerations, each with an object of its own. */
      readonly enumeration?: Enumeration;
    }
  | { readonly kind: "float" }
  | { readonly kind: "pointer"; readonly to: Type }
  | { readonly kind: "reference"; readonly to: Type }
  | { readonly kind: "array"; readonly of: Type; readonly length: number | null }
  | { readonly kind: "record"; readonly record: RecordType }
  | {
      readonly kind: "function";
      readonly returns: Type;
      readonly parameters: readonly Type[];
      readonly variadic: boolean;
    }
  /** A class or a type that was not seen: its size and its members are unknown. */
  | { readonly kind: "opaque"; readonly name: string };

function integer(name: string, bits: 8 | 16 | 32 | 64, signed: boolean, bool = false): Type {
  return { kind: "integer", name, bool, integer: { bits, signed } };
}

export const VOID: Type = { kind: "void" };
export const BOOL = integer("bool", 8, false, true);
export const CHAR = integer("char", 8, true);
export const INT8 = integer("int8_t", 8, true);
export const UINT8 = integer("uint8_t", 8, false);
export const INT16 = integer("int", 16, true);
export const UINT16 = integer("unsigned int", 16, false);
export const INT32 = integer("long", 32, true);
export const UINT32 = integer("unsigned long", 32, false);
export const INT64 = integer("long long", 64, true);
export const UINT64 = integer("unsigned long long", 64, false);
export const FLOAT: Type = { kind: "float" };

/** Types that need no declaration because the core or the C library gives them. */
export const NAMED_TYPES: ReadonlyMap<string, Type> = new Map<string, Type>([
  ["int8_t", INT8],
  ["uint8_t", UINT8],
  ["int16_t", INT16],
  ["uint16_t", UINT16],
  ["int32_t", INT32],
  ["uint32_t", UINT32],
  ["int64_t", INT64],
  ["uint64_t", UINT64],
  ["int_fast8_t", INT8],
  ["uint_fast8_t", UINT8],
  ["int_least8_t", INT8],
  ["uint_least8_t", UINT8],
  ["int_fast16_t", INT16],
  ["uint_fast16_t", UINT16],
  ["int_least16_t", INT16],
  ["uint_least16_t", UINT16],
  ["int_fast32_t", INT32],
  ["uint_fast32_t", UINT32],
  ["intptr_t", INT16],
  ["uintptr_t", UINT16],
  ["size_t", UINT16],
  ["ssize_t", INT16],
  ["ptrdiff_t", INT16],
  ["byte", UINT8],
  ["word", UINT16],
  ["boolean", BOOL],
  // The core's USBAPI.h, which Arduino.h includes for every board.
  ["u8", UINT8],
  ["u16", UINT16],
  ["u32", UINT32],
  ["bool", BOOL],
  ["_Bool", BOOL],
  ["char", CHAR],
  ["wchar_t", INT16],
  ["char16_t", UINT16],
  ["char32_t", UINT32],
  ["int", INT16],
  ["unsigned", UINT16],
  ["long", INT32],
  ["short", INT16],
  ["float", FLOAT],
  ["double", FLOAT],
  ["void", VOID],
  // As server/parse respells `unsigned(x)` and its like.
  ["$uint16x", UINT16],
  ["$int16", INT16],
  ["$i32", INT32],
  ["$shrt", INT16],
  ["prog_char", CHAR],
  ["prog_uchar", UINT8],
  ["prog_uint8_t", UINT8],
  ["prog_uint16_t", UINT16],
]);

/** Bytes that a value of the type takes; 0 where that is not known. */
export function sizeOf(type: Type): number {
  switch (type.kind) {
    case "integer":
      return type.integer.bits / 8;
    case "float":
      return 4;
    case "pointer":
    case "reference":
    case "function":
      return 2;
    case "array":
      return (type.length ?? 0) * sizeOf(type.of);
    case "record":
      return type.record.size;
    default:
      return 0;
  }
}

export function sameType(left: Type, right: Type): boolean {
  if (left === right) return true;
  if (left.kind !== right.kind) return false;
  switch (left.kind) {
    case "integer": {
      const other = right as typeof left;
      return (
        left.integer.bits === other.integer.bits &&
        left.integer.signed === other.integer.signed &&
        left.bool === other.bool &&
        (left.name === "char") === (other.name === "char")
      );
    }
    case "pointer":
    case "reference":
      return sameType(left.to, (right as typeof left).to);
    case "array":
      return left.length === (right as typeof left).length && sameType(left.of, (right as typeof left).of);
    case "record":
      return left.record === (right as typeof left).record;
    case "opaque":
      return left.name === (right as typeof left).name;
    default:
      return true;
  }
}

/** A type without its reference. */
export function referred(type: Type): Type {
  return type.kind === "reference" ? type.to : type;
}

export function isArithmetic(type: Type): boolean {
  return type.kind === "integer" || type.kind === "float";
}

/** Integer promotion: everything narrower than int becomes int (C++11 4.5; on AVR int holds every 8-bit value). */
export function promoted(type: Type): Type {
  if (type.kind !== "integer") return type;
  if (type.integer.bits < 16) return INT16;
  return type.enumeration === undefined ? type : integerOf(type.integer.bits, type.integer.signed);
}

/** The usual arithmetic conversions (C++11 clause 5, paragraph 9). */
export function commonArithmetic(left: Type, right: Type): Type {
  if (left.kind === "float" || right.kind === "float") return FLOAT;
  const a = promoted(left);
  const b = promoted(right);
  if (a.kind !== "integer" || b.kind !== "integer") return a;
  const bits = Math.max(a.integer.bits, b.integer.bits);
  const signed =
    a.integer.bits === b.integer.bits
      ? a.integer.signed && b.integer.signed
      : a.integer.bits > b.integer.bits
        ? a.integer.signed
        : b.integer.signed;
  return integerOf(bits, signed);
}

export function integerOf(bits: number, signed: boolean): Type {
  if (bits <= 8) return signed ? INT8 : UINT8;
  if (bits <= 16) return signed ? INT16 : UINT16;
  if (bits <= 32) return signed ? INT32 : UINT32;
  return signed ? INT64 : UINT64;
}

/** Integers, `bool` and enumerations among them, and floats. */
export function isNumber(type: Type): type is Extract<Type, { kind: "integer" | "float" }> {
  return type.kind === "integer" || type.kind === "float";
}

/** Arrays and functions become pointers where a value is wanted. */
export function decayed(type: Type): Type {
  const plain = referred(type);
  if (plain.kind === "array") return { kind: "pointer", to: plain.of };
  if (plain.kind === "function") return { kind: "pointer", to: plain };
  return plain;
}

/** The type in the sketch's own words, for messages. */
export function showType(type: Type): string {
  switch (type.kind) {
    case "void":
      return "void";
    case "integer":
      return type.name;
    case "float":
      return "float";
    case "pointer":
      return `${showType(type.to)} *`;
    case "reference":
      return `${showType(type.to)} &`;
    case "array":
      return `${showType(type.of)}[${type.length ?? ""}]`;
    case "record":
      return type.record.name;
    case "function":
      return `${showType(type.returns)}(${type.parameters.map(showType).join(", ")})`;
    case "opaque":
      return type.name;
  }
}

export function functionType(code: Pick<FunctionCode, "returns" | "parameters" | "variadic">): Type {
  return {
    kind: "function",
    returns: code.returns,
    parameters: code.parameters.map((parameter) => parameter.type),
    variadic: code.variadic,
  };
}

/** One text per distinct type, for instance tables. */
export function keyOf(type: Type): string {
  switch (type.kind) {
    case "integer":
      return `${type.integer.signed ? "s" : "u"}${type.integer.bits}${type.bool ? "b" : ""}${type.name === "char" ? "c" : ""}`;
    case "pointer":
      return `${keyOf(type.to)}*`;
    case "reference":
      return `${keyOf(type.to)}&`;
    case "array":
      return `${keyOf(type.of)}[${type.length}]`;
    case "record":
      return `${type.record.name}#${type.record.id}`;
    case "function":
      return `${keyOf(type.returns)}(${type.parameters.map(keyOf).join(",")})`;
    case "opaque":
      return type.name;
    default:
      return type.kind;
  }
}
