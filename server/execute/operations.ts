/** Arithmetic on values. Law: the real result is among those returned. */
import type { Type } from "../program/types.js";
import * as float from "./domain/float.js";
import * as number from "./domain/number.js";
import { anything, isPointer, OFFSET, type Value } from "./value.js";

const INTEGER_OPERATIONS = {
  "+": number.add,
  "-": number.sub,
  "*": number.mul,
  "/": number.div,
  "%": number.mod,
  "&": number.and,
  "|": number.or,
  "^": number.xor,
  "<<": number.shl,
  ">>": number.shr,
} as const;

/** `left op right` in `type`. */
export function operate(operator: keyof typeof INTEGER_OPERATIONS, left: Value, right: Value, type: Type): Value {
  if (type.kind === "integer") {
    if ("zeros" in left && "zeros" in right) return INTEGER_OPERATIONS[operator](left, right, type.integer);
    return anything(type);
  }
  if (!("nan" in left) || !("nan" in right)) return anything(type);
  switch (operator) {
    case "+":
      return float.add(left, right);
    case "-":
      return float.sub(left, right);
    case "*":
      return float.mul(left, right);
    case "/":
      return float.div(left, right);
    default:
      return anything(type);
  }
}

/** The number of elements between two pointers into one object, or into the registers. */
export function distance(left: Value, right: Value, size: number, type: Type): Value {
  if (!isPointer(left) || !isPointer(right) || left.targets?.length !== 1 || right.targets?.length !== 1)
    return anything(type);
  const [a, b] = [left.targets[0]!, right.targets[0]!];
  if (type.kind !== "integer") return anything(type);
  let bytes: number.AbstractInteger | null = null;
  if (a.kind === "memory" && b.kind === "memory" && a.object === b.object)
    bytes = number.sub(a.offset, b.offset, OFFSET);
  if (a.kind === "register" && b.kind === "register") bytes = number.sub(a.address, b.address, OFFSET);
  if (bytes === null) return anything(type);
  return number.convert(number.div(bytes, number.constant(size, OFFSET), OFFSET), OFFSET, type.integer);
}
