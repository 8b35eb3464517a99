/** Truth, conversion and comparison of values, as C does them. Law: the real result is among those returned. */
import type { Comparison } from "../program/ir.js";
import type { Type } from "../program/types.js";
import * as float from "./domain/float.js";
import * as number from "./domain/number.js";
import { anything, isPointer, join, NULL_POINTER, OFFSET, type Target, type Value } from "./value.js";

const BOOL: number.IntegerType = { bits: 8, signed: false };
const FALSE = number.constant(0, BOOL);
const TRUE = number.constant(1, BOOL);
const EITHER = number.range(0, 1, BOOL);

export function truthValue(known: boolean | null): number.AbstractInteger {
  return known === null ? EITHER : known ? TRUE : FALSE;
}

/** True, false, or not known; pointers are true where they cannot be null. */
export function truthOf(value: Value): boolean | null {
  if ("zeros" in value) return number.truth(value);
  if ("nan" in value) return float.truth(value);
  if (value.targets === null) return null;
  if (value.targets.length === 0) return value.mayBeNull ? false : null;
  return value.mayBeNull ? null : true;
}

export function inverse(known: boolean | null): boolean | null {
  return known === null ? null : !known;
}

/** Conversion of a value from one type to another, as C does it. */
export function convertValue(value: Value, from: Type, to: Type): Value {
  if (to.kind === "integer") {
    if (to.bool) return "zeros" in value ? number.toBoolean(value) : truthValue(truthOf(value));
    if ("zeros" in value && from.kind === "integer") return number.convert(value, from.integer, to.integer);
    if ("nan" in value) return float.toInteger(value, to.integer);
    if ("targets" in value) return addressAsInteger(value.targets, value.mayBeNull, to);
    return anything(to);
  }
  if (to.kind === "float") {
    if ("nan" in value) return value;
    return "zeros" in value ? float.fromInteger(value) : anything(to);
  }
  if (to.kind === "pointer" || to.kind === "reference") {
    if ("targets" in value) return value;
    if ("zeros" in value && from.kind === "integer") {
      if (number.holdsOnly(value, 0)) return NULL_POINTER;
      const address = number.convert(value, from.integer, OFFSET);
      if (address.min >= 0x20 && address.max < 0x200)
        return { targets: [{ kind: "register", address }], mayBeNull: false };
    }
    return anything(to);
  }
  return anything(to);
}

/** The number of a register's address; other addresses are not known. */
function addressAsInteger(
  targets: readonly Target[] | null,
  mayBeNull: boolean,
  to: Extract<Type, { kind: "integer" }>,
): Value {
  if (targets === null || targets.length === 0)
    return mayBeNull && targets !== null ? number.constant(0, to.integer) : anything(to);
  let result: Value | null = null;
  for (const target of targets) {
    if (target.kind !== "register") return anything(to);
    const value = number.convert(target.address, OFFSET, to.integer);
    result = result === null ? value : join(result, value);
  }
  return result ?? anything(to);
}

export const COMPARISONS: Readonly<Record<Comparison, (a: number, b: number) => boolean>> = {
  "<": (a, b) => a < b,
  "<=": (a, b) => a <= b,
  ">": (a, b) => a > b,
  ">=": (a, b) => a >= b,
  "==": (a, b) => a === b,
  "!=": (a, b) => a !== b,
};

/** The outcome of a comparison, which goes on to be a function of what its sides depend on. */
export function comparison(left: Value, right: Value, operator: Comparison): number.AbstractInteger {
  const known = truthValue(compareValues(left, right, operator));
  if ("targets" in left || "targets" in right || (left.by ?? right.by) === undefined) return known;
  return number.truthBy(known, left, right, COMPARISONS[operator]);
}

export function compareValues(left: Value, right: Value, operator: string): boolean | null {
  if ("zeros" in left && "zeros" in right) {
    switch (operator) {
      case "<":
        return number.less(left, right);
      case "<=":
        return number.lessEqual(left, right);
      case ">":
        return number.less(right, left);
      case ">=":
        return number.lessEqual(right, left);
      case "==":
        return number.equalTo(left, right);
      default:
        return inverse(number.equalTo(left, right));
    }
  }
  if ("nan" in left && "nan" in right) {
    switch (operator) {
      case "<":
        return float.less(left, right);
      case "<=":
        return float.lessEqual(left, right);
      case ">":
        return float.less(right, left);
      case ">=":
        return float.lessEqual(right, left);
      case "==":
        return float.equalTo(left, right);
      default:
        return inverse(float.equalTo(left, right));
    }
  }
  if ("targets" in left && "targets" in right && (operator === "==" || operator === "!=")) {
    const same = samePointers(left, right);
    return operator === "==" ? same : inverse(same);
  }
  return null;
}

function samePointers(left: Value & { targets: unknown }, right: Value & { targets: unknown }): boolean | null {
  if (!isPointer(left) || !isPointer(right) || left.targets === null || right.targets === null) return null;
  const leftNull = left.targets.length === 0 && left.mayBeNull;
  const rightNull = right.targets.length === 0 && right.mayBeNull;
  if (leftNull && rightNull) return true;
  if (leftNull) return right.mayBeNull ? null : false;
  if (rightNull) return left.mayBeNull ? null : false;
  if (left.targets.length !== 1 || right.targets.length !== 1 || left.mayBeNull || right.mayBeNull) return null;
  const [a, b] = [left.targets[0]!, right.targets[0]!];
  if (a.kind !== b.kind) return false;
  if (a.kind === "code") return a.code === (b as typeof a).code;
  if (a.kind === "register") return number.equalTo(a.address, (b as typeof a).address);
  return a.object === (b as typeof a).object ? number.equalTo(a.offset, (b as typeof a).offset) : false;
}
