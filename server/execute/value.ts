/** What an expression may be worth: an abstract integer, an abstract float, or a set of places pointed to. */
import type { FunctionCode, Variable } from "../program/ir.js";
import { sizeOf, type Type } from "../program/types.js";
import * as float from "./domain/float.js";
import * as number from "./domain/number.js";

/** Bytes from the start of an object; `object` is the identity of one activation's variable. */
export interface MemoryTarget {
  readonly kind: "memory";
  readonly object: number;
  readonly variable: Variable;
  readonly offset: number.AbstractInteger;
}

/** Somewhere in the register file: `address` as LDS and STS see it. */
export interface RegisterTarget {
  readonly kind: "register";
  readonly address: number.AbstractInteger;
}

export interface CodeTarget {
  readonly kind: "code";
  readonly code: FunctionCode;
}

export type Target = MemoryTarget | RegisterTarget | CodeTarget;

/** Everything a pointer may point to; `targets` null: anything at all. `null` is a target of its own: `mayBeNull`. */
export interface PointerValue {
  readonly targets: readonly Target[] | null;
  readonly mayBeNull: boolean;
}

export type Value = number.AbstractInteger | float.AbstractFloat | PointerValue;

export const ANY_POINTER: PointerValue = { targets: null, mayBeNull: true };
export const NULL_POINTER: PointerValue = { targets: [], mayBeNull: true };

export const OFFSET: number.IntegerType = { bits: 32, signed: true };

export function isPointer(value: Value): value is PointerValue {
  return "targets" in value;
}

export function isInteger(value: Value): value is number.AbstractInteger {
  return "zeros" in value;
}

/** Everything a value of the type can be. */
export function anything(type: Type): Value {
  switch (type.kind) {
    case "integer":
      return type.bool ? number.range(0, 1, type.integer) : number.top(type.integer);
    case "float":
      return float.top;
    default:
      return ANY_POINTER;
  }
}

export function zeroOf(type: Type): Value {
  switch (type.kind) {
    case "integer":
      return number.constant(0, type.integer);
    case "float":
      return float.constant(0);
    default:
      return NULL_POINTER;
  }
}

/** True where a value of this type is one scalar cell. */
export function isScalar(type: Type): boolean {
  return type.kind === "integer" || type.kind === "float" || type.kind === "pointer" || type.kind === "reference";
}

const MAX_TARGETS = 16;

/** The same set, known in the same way. */
function sameNumber(a: number.AbstractInteger, b: number.AbstractInteger): boolean {
  return a.by === b.by && number.equal(a, b);
}

function sameTarget(a: Target, b: Target): boolean {
  if (a.kind !== b.kind) return false;
  if (a.kind === "code") return a.code === (b as CodeTarget).code;
  if (a.kind === "register") return sameNumber(a.address, (b as RegisterTarget).address);
  return a.object === (b as MemoryTarget).object && sameNumber(a.offset, (b as MemoryTarget).offset);
}

export function joinPointers(a: PointerValue, b: PointerValue): PointerValue {
  if (a === b) return a;
  if (a.targets === null || b.targets === null) return ANY_POINTER;
  const targets: Target[] = [...a.targets];
  for (const target of b.targets) {
    if (targets.some((present) => sameTarget(present, target))) continue;
    const near = targets.findIndex((present) => joinable(present, target));
    if (near >= 0) targets[near] = joinTargets(targets[near]!, target);
    else targets.push(target);
  }
  if (targets.length > MAX_TARGETS) return ANY_POINTER;
  return { targets, mayBeNull: a.mayBeNull || b.mayBeNull };
}

function joinable(a: Target, b: Target): boolean {
  return (
    (a.kind === "memory" && b.kind === "memory" && a.object === b.object) ||
    (a.kind === "register" && b.kind === "register")
  );
}

function joinTargets(a: Target, b: Target): Target {
  if (a.kind === "memory") return { ...a, offset: number.join(a.offset, (b as MemoryTarget).offset) };
  if (a.kind === "register")
    return { kind: "register", address: number.join(a.address, (b as RegisterTarget).address) };
  return a;
}

export function join(a: Value, b: Value): Value {
  if (a === b) return a;
  if ("zeros" in a) return "zeros" in b ? number.join(a, b) : ANY_POINTER;
  if ("targets" in a) return "targets" in b ? joinPointers(a, b) : ANY_POINTER;
  return "nan" in b ? float.join(a, b) : ANY_POINTER;
}

export function equal(a: Value, b: Value): boolean {
  if (a === b) return true;
  if ("zeros" in a) return "zeros" in b && sameNumber(a, b);
  if ("targets" in a) {
    if (!("targets" in b) || a.mayBeNull !== b.mayBeNull) return false;
    if (a.targets === null || b.targets === null) return a.targets === b.targets;
    return (
      a.targets.length === b.targets.length &&
      a.targets.every((target, index) => sameTarget(target, b.targets![index]!))
    );
  }
  return "nan" in b && a.by === b.by && float.equal(a, b);
}

/** Widening for loops: covers both and changes only finitely often. */
export function widen(before: Value, after: Value, round: number, type: Type, landmarks?: readonly number[]): Value {
  if (before === after) return before;
  if ("zeros" in before && "zeros" in after && type.kind === "integer")
    return number.widen(before, after, round, type.integer, landmarks);
  if ("nan" in before && "nan" in after) return float.widen(before, after, round);
  if ("targets" in before && "targets" in after) {
    const joined = joinPointers(before, after);
    if (equal(joined, before)) return before;
    if (round < 4 || joined.targets === null) return joined;
    const targets = joined.targets.map((target): Target => {
      if (target.kind === "memory") {
        return { ...target, offset: number.range(0, Math.max(0, sizeOf(target.variable.type)), OFFSET) };
      }
      return target;
    });
    return round < 8 ? { ...joined, targets } : ANY_POINTER;
  }
  return "zeros" in before && type.kind === "integer" ? number.top(type.integer) : ANY_POINTER;
}

export function leq(a: Value, b: Value): boolean {
  if (a === b) return true;
  return equal(join(b, a), b);
}
