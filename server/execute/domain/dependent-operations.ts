/** C's operations on integers and floats, which carry on what a value depends on. Law: entry by entry as on single values. */
import * as arithmetic from "./arithmetic.js";
import * as bitwise from "./bitwise.js";
import * as conversion from "./convert.js";
import { through, throughBoth } from "./dependence.js";
import { FEW, insert } from "./few.js";
import * as floats from "./float-arithmetic.js";
import * as functions from "./float-functions.js";
import { type AbstractFloat, constant as float } from "./float-range.js";
import { type AnyIntegerType, maskOf, wrap } from "./integer-type.js";
import { type AbstractInteger, listed, settled } from "./product.js";

type Operation = (a: AbstractInteger, b: AbstractInteger, type: AnyIntegerType) => AbstractInteger;
type Scalar = (a: number, b: number, type: AnyIntegerType) => number;

/** 64-bit numbers are not exact in tables. */
function following(operation: Operation, scalar: Scalar): Operation {
  return (a, b, type) => {
    const result = operation(a, b, type);
    if ((a.by === undefined && b.by === undefined) || type.bits > 32) return result;
    return throughBoth(result, a, b, (x, y) => wrap(scalar(x, y, type), type));
  };
}

const NOT_DEFINED = Number.NaN;
const UNKNOWN = { min: NOT_DEFINED, max: NOT_DEFINED };

/** `wrap` would make 0 of what is not defined. */
function followingWhereDefined(operation: Operation, scalar: Scalar): Operation {
  return (a, b, type) => {
    const result = operation(a, b, type);
    if ((a.by === undefined && b.by === undefined) || type.bits > 32) return result;
    return throughBoth(result, a, b, (x, y) => {
      const value = scalar(x, y, type);
      return Number.isNaN(value) ? value : wrap(value, type);
    });
  };
}

export const add = following(arithmetic.add, (a, b) => a + b);
export const sub = following(arithmetic.sub, (a, b) => a - b);
export const mul = following(arithmetic.mul, (a, b) => Math.imul(a, b));
export const div = followingWhereDefined(arithmetic.div, (a, b) => (b === 0 ? NOT_DEFINED : Math.trunc(a / b)));
export const mod = followingWhereDefined(arithmetic.mod, (a, b) => (b === 0 ? NOT_DEFINED : a % b));
export const and = following(bitwise.and, (a, b) => a & b);
export const or = following(bitwise.or, (a, b) => a | b);
export const xor = following(bitwise.xor, (a, b) => a ^ b);
export const shl = followingWhereDefined(bitwise.shl, (a, b, type) => (b < 0 || b >= type.bits ? NOT_DEFINED : a << b));
export const shr = followingWhereDefined(bitwise.shr, (a, b, type) =>
  b < 0 || b >= type.bits ? NOT_DEFINED : Math.floor(a / 2 ** b),
);

export function neg(a: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  const result = arithmetic.neg(a, type);
  return a.by === undefined || type.bits > 32 ? result : through(result, a, (value) => wrap(-value, type));
}

export function not(a: AbstractInteger, type: AnyIntegerType): AbstractInteger {
  const result = bitwise.not(a, type);
  return a.by === undefined || type.bits > 32 ? result : through(result, a, (value) => wrap(~value, type));
}

export function convert(value: AbstractInteger, from: AnyIntegerType, to: AnyIntegerType): AbstractInteger {
  const result = conversion.convert(value, from, to);
  return value.by === undefined || to.bits > 32 || from.bits > 32
    ? result
    : through(result, value, (each) => wrap(each, to));
}

export function toBoolean(value: AbstractInteger): AbstractInteger {
  const result = conversion.toBoolean(value);
  return value.by === undefined ? result : through(result, value, (each) => (each === 0 ? 0 : 1));
}

type FloatOperation = (a: AbstractFloat, b: AbstractFloat) => AbstractFloat;

/** One number, or none where the result is not known exactly. */
function only(result: { readonly min: number; readonly max: number; readonly nan?: boolean }): number {
  return result.min === result.max && result.nan !== true ? result.min : NOT_DEFINED;
}

function followingFloats(operation: FloatOperation): FloatOperation {
  return (a, b) => {
    const result = operation(a, b);
    if (a.by === undefined && b.by === undefined) return result;
    return throughBoth(result, a, b, (x, y) => only(operation(float(x), float(y))));
  };
}

export const addFloats = followingFloats(floats.add);
export const subFloats = followingFloats(floats.sub);
export const mulFloats = followingFloats(floats.mul);
export const divFloats = followingFloats(floats.div);

export function negFloat(a: AbstractFloat): AbstractFloat {
  const result = floats.neg(a);
  return a.by === undefined ? result : through(result, a, (value) => -value + 0);
}

export function absFloat(a: AbstractFloat): AbstractFloat {
  const result = functions.abs(a);
  return a.by === undefined ? result : through(result, a, Math.abs);
}

/** A function of the C library: exact entries only where the library is (see float-functions.ts). */
export function callFunction(name: string, args: readonly AbstractFloat[]): AbstractFloat | null {
  const result = functions.callFunction(name, args);
  const [a, b] = args;
  if (result === null || (a?.by === undefined && b?.by === undefined)) return result;
  const entry = (...values: number[]): number => only(functions.callFunction(name, values.map(float)) ?? UNKNOWN);
  if (args.length === 1) return through(result, a!, (value) => entry(value));
  return args.length === 2 ? throughBoth(result, a!, b!, (x, y) => entry(x, y)) : result;
}

export function fromInteger(a: AbstractInteger): AbstractFloat {
  const result = floats.fromInteger(a);
  return a.by === undefined ? result : through(result, a, Math.fround);
}

export function toInteger(a: AbstractFloat, type: AnyIntegerType): AbstractInteger {
  const result = floats.toInteger(a, type);
  return a.by === undefined || type.bits > 32
    ? result
    : through(result, a, (value) => only(floats.toInteger(float(value), type)));
}

/** A value that is one thing or another by a reading: for comparisons. */
export function truthBy(
  either: AbstractInteger,
  a: { readonly min: number; readonly max: number },
  b: { readonly min: number; readonly max: number },
  holds: (x: number, y: number) => boolean,
): AbstractInteger {
  return throughBoth(either, a, b, (x, y) => (holds(x, y) ? 1 : 0));
}

/** Everything that the table holds at the entries allowed; null where it holds nothing there. */
export function occurringIn(
  table: Float64Array,
  allowed: Uint8Array | undefined,
  type: AnyIntegerType,
): AbstractInteger | null {
  let [min, max] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let [zeros, ones] = [-1, -1];
  let few: number[] | null = [];
  let before = Number.NaN;
  for (let at = 0; at < table.length; at++) {
    if (allowed !== undefined && allowed[at] === 0) continue;
    const value = table[at]!;
    // Neighbours are often equal.
    if (value === before) continue;
    before = value;
    if (value < min) min = value;
    if (value > max) max = value;
    zeros &= ~value;
    ones &= value;
    if (few !== null && insert(few, value) && few.length > FEW) few = null;
  }
  if (min > max) return null;
  if (few !== null) return listed(few, type);
  const mask = maskOf(type);
  return settled(min, max, (zeros & mask) >>> 0, (ones & mask) >>> 0, type);
}
