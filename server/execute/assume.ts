/** What a condition's outcome tells about the values in it. Law: only states in which the condition cannot have that outcome are refused. */
import type { Expression, Place } from "../program/ir.js";
import type { Type } from "../program/types.js";
import { COMPARISONS, compareValues, convertValue, inverse, truthOf } from "./conversions.js";
import { dependent } from "./domain/dependence.js";
import * as float from "./domain/float.js";
import * as number from "./domain/number.js";
import { hasEffects } from "./effects.js";
import { evaluate } from "./evaluate.js";
import { learn } from "./facts.js";
import { assumeReading } from "./inputs.js";
import { Aggregate } from "./memory.js";
import { locate, readPlace, writeTargets } from "./places.js";
import { coreContext } from "./register-writes.js";
import type { Run } from "./run.js";
import { objectOf, type State } from "./state.js";
import type { Value } from "./value.js";

const ZERO = number.constant(0, { bits: 8, signed: false });

/** Narrows `state` to where the condition has the given outcome; false where that cannot be. The condition was evaluated just before. */
export function assume(run: Run, state: State, condition: Expression, holds: boolean): boolean {
  switch (condition.op) {
    case "not":
      return assume(run, state, condition.operand, !holds);
    case "traced":
      return assume(run, state, condition.operand, holds);
    case "convert":
      if (condition.type.kind === "integer" && condition.type.bool) return assume(run, state, condition.operand, holds);
      return assumeValue(run, state, condition, holds);
    case "and":
    case "or": {
      const both = (condition.op === "and") === holds;
      if (both) return assume(run, state, condition.left, holds) && assume(run, state, condition.right, holds);
      if (hasEffects(condition.left) || hasEffects(condition.right)) return true;
      const left = truthOf(evaluate(run, state, condition.left));
      // Where one side is known not to have the outcome, the other must.
      if (left === !holds) return assume(run, state, condition.right, holds);
      const right = truthOf(evaluate(run, state, condition.right));
      if (right === !holds) return assume(run, state, condition.left, holds);
      return true;
    }
    case "compare":
      return assumeComparison(run, state, condition, holds);
    case "binary":
      if (condition.operator === "&") return assumeMask(run, state, condition, holds);
      return assumeValue(run, state, condition, holds);
    default:
      return assumeValue(run, state, condition, holds);
  }
}

function assumeValue(run: Run, state: State, expression: Expression, holds: boolean): boolean {
  if (hasEffects(expression) && expression.op !== "assign") return true;
  const value = current(run, state, expression);
  if (value === null) return true;
  if (!("targets" in value) && !assumeReading(state, value, ZERO, (each) => (each !== 0) === holds)) return false;
  if ("zeros" in value && expression.type.kind === "integer") {
    const narrowed = number.assumeTruth(value, holds, expression.type.integer);
    if (narrowed === null) return false;
    refine(run, state, expression, narrowed);
    return true;
  }
  if ("nan" in value) return float.assumeTruth(value, holds) !== null;
  const known = truthOf(value);
  if (known !== null) return known === holds;
  if ("targets" in value)
    refine(run, state, expression, holds ? { ...value, mayBeNull: false } : { targets: [], mayBeNull: true });
  return true;
}

/** The value of an expression, without doing its effects again; null where that needs them. */
function current(run: Run, state: State, expression: Expression): Value | null {
  if (expression.op === "assign") return expression.old ? null : readStable(run, state, expression.target);
  return hasEffects(expression) ? null : evaluate(run, state, expression);
}

function readStable(run: Run, state: State, place: Place): Value | null {
  return place.op === "variable" ? readPlace(run, state, place) : null;
}

function assumeComparison(
  run: Run,
  state: State,
  condition: Extract<Expression, { op: "compare" }>,
  holds: boolean,
): boolean {
  const left = current(run, state, condition.left);
  const right = current(run, state, condition.right);
  if (left === null || right === null) return true;
  const known = compareValues(left, right, condition.operator);
  if (known === inverse(holds)) return false;
  if (!("targets" in left) && !("targets" in right)) {
    const test = COMPARISONS[condition.operator];
    if (!assumeReading(state, left, right, (a, b) => test(a, b) === holds)) return false;
  }
  if ("nan" in left && "nan" in right) {
    assumeFloats(run, state, condition, left, right, holds);
    return true;
  }
  if (!("zeros" in left) || !("zeros" in right) || condition.left.type.kind !== "integer") {
    assumePointers(run, state, condition, left, right, holds);
    return true;
  }
  const type = condition.left.type.integer;
  const assumed = assumeIntegers(condition.operator, left, right, holds, type);
  if (assumed === null) return false;
  refine(run, state, condition.left, assumed.left);
  refine(run, state, condition.right, assumed.right);
  return true;
}

function assumeIntegers(
  operator: string,
  left: number.AbstractInteger,
  right: number.AbstractInteger,
  holds: boolean,
  type: number.IntegerType,
): number.Assumed | null {
  switch (operator) {
    case "<":
      return holds ? number.assumeLess(left, right, type) : swap(number.assumeLessEqual(right, left, type));
    case "<=":
      return holds ? number.assumeLessEqual(left, right, type) : swap(number.assumeLess(right, left, type));
    case ">":
      return holds ? swap(number.assumeLess(right, left, type)) : number.assumeLessEqual(left, right, type);
    case ">=":
      return holds ? swap(number.assumeLessEqual(right, left, type)) : number.assumeLess(left, right, type);
    case "==":
      return holds ? number.assumeEqual(left, right, type) : number.assumeNotEqual(left, right, type);
    default:
      return holds ? number.assumeNotEqual(left, right, type) : number.assumeEqual(left, right, type);
  }
}

function swap<T extends { readonly left: unknown; readonly right: unknown }>(assumed: T | null): T | null {
  return assumed === null ? null : { ...assumed, left: assumed.right, right: assumed.left };
}

function assumeFloats(
  run: Run,
  state: State,
  condition: Extract<Expression, { op: "compare" }>,
  left: float.AbstractFloat,
  right: float.AbstractFloat,
  holds: boolean,
): void {
  const assumed = floatAssumption(condition.operator, left, right, holds);
  if (assumed === null) return;
  refine(run, state, condition.left, assumed.left);
  refine(run, state, condition.right, assumed.right);
}

function floatAssumption(
  operator: string,
  left: float.AbstractFloat,
  right: float.AbstractFloat,
  holds: boolean,
): float.AssumedFloats | null {
  switch (operator) {
    case "<":
      return holds ? float.assumeLess(left, right) : float.assumeNotLess(left, right);
    case "<=":
      return holds ? float.assumeLessEqual(left, right) : float.assumeNotLessEqual(left, right);
    case ">":
      return swap(holds ? float.assumeLess(right, left) : float.assumeNotLess(right, left));
    case ">=":
      return swap(holds ? float.assumeLessEqual(right, left) : float.assumeNotLessEqual(right, left));
    case "==":
      return holds ? float.assumeEqual(left, right) : float.assumeNotEqual(left, right);
    default:
      return holds ? float.assumeNotEqual(left, right) : float.assumeEqual(left, right);
  }
}

function assumePointers(
  run: Run,
  state: State,
  condition: Extract<Expression, { op: "compare" }>,
  left: Value,
  right: Value,
  holds: boolean,
): void {
  if (!("targets" in left) || !("targets" in right)) return;
  const equal = (condition.operator === "==") === holds;
  const rightNull = right.targets?.length === 0;
  const leftNull = left.targets?.length === 0;
  if (rightNull) refine(run, state, condition.left, equal ? right : { ...left, mayBeNull: false });
  else if (leftNull) refine(run, state, condition.right, equal ? left : { ...right, mayBeNull: false });
}

/** `if (x & MASK)`. */
function assumeMask(run: Run, state: State, condition: Extract<Expression, { op: "binary" }>, holds: boolean): boolean {
  const left = current(run, state, condition.left);
  const right = current(run, state, condition.right);
  if (left === null || right === null || !("zeros" in left) || !("zeros" in right) || condition.type.kind !== "integer")
    return true;
  const type = condition.type.integer;
  const known = number.truth(number.and(left, right, type));
  if (known === inverse(holds)) return false;
  if (!assumeReading(state, left, right, (a, b) => ((a & b) !== 0) === holds)) return false;
  if (number.isSingle(right)) {
    const narrowed = number.assumeBits(left, right.min, holds, type);
    if (narrowed === null) return false;
    refine(run, state, condition.left, narrowed);
  } else if (number.isSingle(left)) {
    const narrowed = number.assumeBits(right, left.min, holds, type);
    if (narrowed === null) return false;
    refine(run, state, condition.right, narrowed);
  }
  return true;
}

/** Writes back what is now known of an expression's value into the variable it was read from. */
function refine(run: Run, state: State, expression: Expression, known: Value): void {
  switch (expression.op) {
    case "load":
      refinePlace(run, state, expression.place, known);
      return;
    case "assign":
      if (!expression.old) refinePlace(run, state, expression.target, known);
      return;
    case "traced":
      refine(run, state, expression.operand, known);
      return;
    case "convert":
      refineConverted(run, state, expression, known);
      return;
    case "binary":
      refineSum(run, state, expression, known);
      learn(run, state, expression, known);
      return;
    case "choose":
      refineChoice(run, state, expression, known);
      return;
    case "compare":
    case "not":
    case "and":
    case "or":
      if ("zeros" in known && number.truth(known) !== null) assume(run, state, expression, number.truth(known)!);
      return;
    default:
      learn(run, state, expression, known);
  }
}

/** Where one side of `c ? a : b` cannot be worth what is known, the condition went the other way. */
function refineChoice(run: Run, state: State, expression: Extract<Expression, { op: "choose" }>, known: Value): void {
  const { type } = expression;
  if (type.kind !== "integer" || !("zeros" in known) || hasEffects(expression)) return;
  const possible = [expression.yes, expression.no].map((side) => {
    const value = evaluate(run, state, side);
    return !("zeros" in value) || number.meet(value, known, type.integer) !== null;
  });
  if (possible[0] !== possible[1]) assume(run, state, expression.condition, possible[0]!);
}

function refinePlace(run: Run, state: State, place: Place, known: Value): void {
  if (place.op !== "variable") {
    if (place.op === "dereference" || place.op === "member" || place.op === "index")
      refineTarget(run, state, place, known);
    return;
  }
  if (run.interference.has(objectOf(place.variable, state.depth))) return;
  const object = objectOf(place.variable, state.depth);
  const present = state.memory.get(object);
  if (present === undefined || present instanceof Aggregate) return;
  const narrowed = narrowedTo(present, known, place.type);
  if (narrowed !== null) state.memory.set(object, narrowed);
}

/** Through a pointer, or into an object, where it is certain which cell is meant. */
function refineTarget(run: Run, state: State, place: Place, known: Value): void {
  if (place.op === "member" && place.field.bits !== undefined) return;
  const targets = locate(run, state, place);
  const target = targets?.length === 1 ? targets[0] : undefined;
  if (target?.kind !== "memory" || !number.isSingle(target.offset) || run.interference.has(target.object)) return;
  const present = readPlace(run, state, place);
  const narrowed = narrowedTo(present, known, place.type);
  if (narrowed !== null && narrowed !== present)
    writeTargets(run, state, [target], place.type, narrowed, coreContext(place.start, place.end));
}

/** What is known of a value before and now; null where that is nothing new. */
function narrowedTo(present: Value, known: Value, type: Type): Value | null {
  if ("zeros" in present && "zeros" in known) {
    const narrowed = type.kind === "integer" ? number.meet(present, known, type.integer) : null;
    return narrowed === null ? null : dependent(narrowed, present.by);
  }
  if ("nan" in present && "nan" in known) return dependent(known, present.by);
  return "targets" in present && "targets" in known ? known : null;
}

/** Through a conversion that keeps every value. */
function refineConverted(
  run: Run,
  state: State,
  expression: Extract<Expression, { op: "convert" }>,
  known: Value,
): void {
  const from = expression.operand.type;
  if (from.kind !== "integer" || expression.type.kind !== "integer" || !("zeros" in known)) return;
  const before = current(run, state, expression.operand);
  if (before === null || !("zeros" in before)) return;
  const converted = convertValue(before, from, expression.type);
  if (!("zeros" in converted) || converted.min !== before.min || converted.max !== before.max) return;
  const low = Math.max(known.min, before.min);
  const high = Math.min(known.max, before.max);
  if (low > high) return;
  const inside =
    known.values !== null
      ? number.fromValues(
          known.values.filter((value) => value >= before.min && value <= before.max),
          from.integer,
        )
      : number.range(low, high, from.integer);
  refine(run, state, expression.operand, inside);
}

/** Through `x + c` and `x - c` that did not wrap. */
function refineSum(run: Run, state: State, expression: Extract<Expression, { op: "binary" }>, known: Value): void {
  if (
    (expression.operator !== "+" && expression.operator !== "-") ||
    expression.type.kind !== "integer" ||
    !("zeros" in known)
  )
    return;
  const left = current(run, state, expression.left);
  const right = current(run, state, expression.right);
  if (left === null || right === null || !("zeros" in left) || !("zeros" in right) || !number.isSingle(right)) return;
  const type = expression.type.integer;
  const by = expression.operator === "+" ? right.min : -right.min;
  const limit = number.top(type);
  if (left.min + by < limit.min || left.max + by > limit.max) return;
  const low = Math.max(known.min - by, left.min);
  const high = Math.min(known.max - by, left.max);
  if (low <= high) refine(run, state, expression.left, number.range(low, high, type));
}
