/**
 * What a condition tells of an expression that is no variable: `x / 4 < 20 ? 20 : x / 4`. The core's macros write their
 * argument twice, and both times it is worth the same as long as nothing in between changes. Law: a fact holds only
 * while the branch of the conditional expression that gave it is evaluated.
 */
import type { Expression, Place } from "../program/ir.js";
import type { Type } from "../program/types.js";
import { dependent } from "./domain/dependence.js";
import * as number from "./domain/number.js";
import type { Run } from "./run.js";
import { objectOf, type State } from "./state.js";
import type { Value } from "./value.js";

/** Functions of the core that give the same for the same arguments and change nothing. */
const PURE_CORE = new Set([
  "map",
  "abs",
  "labs",
  "makeWord",
  "sqrt",
  "pow",
  "fabs",
  "floor",
  "ceil",
  "exp",
  "log",
  "sin",
  "cos",
  "tan",
]);

export function isPureCore(name: string): boolean {
  return PURE_CORE.has(name);
}

const keys = new WeakMap<Expression, string | null>();

/** One text per expression that is worth the same whenever its variables are; null where it may change by itself. */
export function keyOf(expression: Expression): string | null {
  const known = keys.get(expression);
  if (known !== undefined) return known;
  const made = makeKey(expression);
  keys.set(expression, made);
  return made;
}

function makeKey(expression: Expression): string | null {
  switch (expression.op) {
    case "integer":
    case "real":
      return `${expression.value}${typeKey(expression.type)}`;
    case "traced":
      return keyOf(expression.operand);
    case "load":
      return placeKey(expression.place);
    case "convert":
    case "negate":
    case "complement":
    case "not": {
      const operand = keyOf(expression.operand);
      return operand === null ? null : `${expression.op}${typeKey(expression.type)}(${operand})`;
    }
    case "binary": {
      const left = keyOf(expression.left);
      const right = keyOf(expression.right);
      return left === null || right === null
        ? null
        : `(${left}${expression.operator}${typeKey(expression.type)}${right})`;
    }
    case "core": {
      if (!isPureCore(expression.name)) return null;
      const parts = expression.arguments.map(keyOf);
      return parts.includes(null) ? null : `${expression.name}(${parts.join(",")})`;
    }
    default:
      return null;
  }
}

function placeKey(place: Place): string | null {
  if (place.op === "variable") return place.variable.volatile ? null : `v${place.variable.id}`;
  if (place.op === "member") {
    const base = placeKey(place.base);
    return base === null ? null : `${base}.${place.field.offset}`;
  }
  return null;
}

function typeKey(type: Type): string {
  return type.kind === "integer" ? `:${type.integer.signed ? "s" : "u"}${type.integer.bits}` : `:${type.kind}`;
}

/** Remembers what is known of an expression's value on this path. */
export function learn(run: Run, state: State, expression: Expression, known: Value): void {
  if (state.facts === null || !("zeros" in known) || isShared(run, state, expression)) return;
  const key = keyOf(expression);
  if (key === null) return;
  const before = state.facts.get(key);
  const type = expression.type;
  if (type.kind !== "integer") return;
  const both = before === undefined ? known : number.meet(before, known, type.integer);
  if (both !== null) state.facts.set(key, both);
}

/** The value, narrowed by what is known of the expression on this path. */
export function recall(state: State, expression: Expression, value: Value): Value {
  if (state.facts === null || state.facts.size === 0 || !("zeros" in value) || expression.type.kind !== "integer")
    return value;
  const key = keyOf(expression);
  const known = key === null ? undefined : state.facts.get(key);
  if (known === undefined) return value;
  const narrowed = number.meet(value, known, expression.type.integer);
  return narrowed === null ? value : dependent(narrowed, value.by);
}

/** Variables that an interrupt routine may change at any time carry no facts. */
function isShared(run: Run, state: State, expression: Expression): boolean {
  if (run.interference.size === 0) return false;
  switch (expression.op) {
    case "load":
      return (
        expression.place.op !== "variable" || run.interference.has(objectOf(expression.place.variable, state.depth))
      );
    case "traced":
    case "convert":
    case "negate":
    case "complement":
    case "not":
      return isShared(run, state, expression.operand);
    case "binary":
      return isShared(run, state, expression.left) || isShared(run, state, expression.right);
    case "core":
      return expression.arguments.some((argument) => isShared(run, state, argument));
    default:
      return false;
  }
}
