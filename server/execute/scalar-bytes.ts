/** Memory read and written as another type: bytes of a number, low byte first. Law: what is not written stays, bit for bit. */
import type { Type } from "../program/types.js";
import * as number from "./domain/number.js";
import { anything, OFFSET, type Value } from "./value.js";

/** The bytes `at …` of the number as a value of the type; null where they are not within it or are no number. */
export function partOf(whole: Value, from: Type, at: number.AbstractInteger, type: Type): Value | null {
  const place = placeIn(whole, from, at, type);
  if (place === null) return null;
  const { wide, narrow, value, shift } = place;
  const shifted = number.shr(number.convert(value, place.own, wide), number.constant(shift, OFFSET), wide);
  return number.convert(shifted, wide, narrow);
}

/** The number with the bytes `at …` set to the value; null as above. */
export function withPart(whole: Value, from: Type, at: number.AbstractInteger, type: Type, part: Value): Value | null {
  const place = placeIn(whole, from, at, type);
  if (place === null || !("zeros" in part)) return null;
  const { wide, narrow, value, shift, own } = place;
  const ones = 2 ** narrow.bits - 1;
  const kept = number.and(
    number.convert(value, own, wide),
    number.constant(2 ** wide.bits - 1 - ones * 2 ** shift, wide),
    wide,
  );
  const unsigned = number.convert(part, narrow, { bits: narrow.bits, signed: false } as number.IntegerType);
  const moved = number.shl(
    number.convert(unsigned, { bits: narrow.bits, signed: false } as number.IntegerType, wide),
    number.constant(shift, OFFSET),
    wide,
  );
  return number.convert(number.or(kept, moved, wide), wide, own);
}

interface Part {
  readonly value: number.AbstractInteger;
  readonly own: number.IntegerType;
  readonly wide: number.IntegerType;
  readonly narrow: number.IntegerType;
  readonly shift: number;
}

function placeIn(whole: Value, from: Type, at: number.AbstractInteger, type: Type): Part | null {
  if (!("zeros" in whole) || from.kind !== "integer" || type.kind !== "integer" || !number.isSingle(at)) return null;
  const [own, narrow] = [from.integer, type.integer];
  if (own.bits > 32 || at.min < 0 || at.min * 8 + narrow.bits > own.bits) return null;
  return {
    value: whole,
    own,
    narrow,
    wide: { bits: own.bits, signed: false } as number.IntegerType,
    shift: at.min * 8,
  };
}

/** A value of one type, stored in a place of another that is as wide. */
export function reinterpret(value: Value, from: Type, to: Type): Value {
  if (from.kind === "integer" && to.kind === "integer") {
    if (from.integer.signed === to.integer.signed && from.bool === to.bool) return value;
    return "zeros" in value ? number.convert(value, from.integer, to.integer) : anything(to);
  }
  const fromPointer = from.kind === "pointer" || from.kind === "reference";
  const toPointer = to.kind === "pointer" || to.kind === "reference";
  return from.kind === to.kind || (fromPointer && toPointer) ? value : anything(to);
}
