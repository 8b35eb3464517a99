/**
 * What C's operators do to single integers on an AVR: the reference the abstract operations are held against. Written
 * with big integers and no regard for speed, so that nothing is shared with the domain. Undefined where C's behaviour
 * is undefined and the domain promises nothing.
 */

import type { AnyIntegerType } from "../../server/execute/domain/integer-type.js";

export function wrapBig(value: bigint, type: AnyIntegerType): bigint {
  return type.signed ? BigInt.asIntN(type.bits, value) : BigInt.asUintN(type.bits, value);
}

type Binary = (a: bigint, b: bigint, type: AnyIntegerType) => bigint | undefined;

export const BINARY: Readonly<Record<string, Binary>> = {
  add: (a, b, type) => wrapBig(a + b, type),
  sub: (a, b, type) => wrapBig(a - b, type),
  mul: (a, b, type) => wrapBig(a * b, type),
  div: (a, b, type) => (b === 0n ? undefined : wrapBig(a / b, type)),
  mod: (a, b, type) => (b === 0n ? undefined : wrapBig(a % b, type)),
  and: (a, b, type) => wrapBig(a & b, type),
  or: (a, b, type) => wrapBig(a | b, type),
  xor: (a, b, type) => wrapBig(a ^ b, type),
  shl: (a, b, type) => (b < 0n || b >= BigInt(type.bits) ? undefined : wrapBig(a << b, type)),
  shr: (a, b, type) => (b < 0n || b >= BigInt(type.bits) ? undefined : wrapBig(a >> b, type)),
};

export const COMMUTING: readonly string[] = ["add", "mul", "and", "or", "xor"];

export const UNARY: Readonly<Record<string, (a: bigint, type: AnyIntegerType) => bigint>> = {
  neg: (a, type) => wrapBig(-a, type),
  not: (a, type) => wrapBig(~a, type),
};

export function leastOf(type: AnyIntegerType): bigint {
  return type.signed ? -(1n << BigInt(type.bits - 1)) : 0n;
}

export function greatestOf(type: AnyIntegerType): bigint {
  return type.signed ? (1n << BigInt(type.bits - 1)) - 1n : (1n << BigInt(type.bits)) - 1n;
}

/** Every value of a small type. */
export function everyValue(type: AnyIntegerType): number[] {
  const all: number[] = [];
  for (let value = leastOf(type); value <= greatestOf(type); value++) all.push(Number(value));
  return all;
}
