/**
 * In which order the parts of an expression come, where calls among them can tell. Law: calls as avr-gcc 5.4 makes them, for C and
 * for C++ (measured: test/oracle/sketches/lang-order-*): arguments from the last to the first and the object behind them; both
 * sides of an operator, and of a plain assignment, from left to right; the right side of any other assignment before its left.
 * What is only read besides may be read before or behind a call: the compiler turns operands round as it sees fit.
 */
import type { SyntaxNode } from "../parse/syntax.js";
import { rvalue } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import { heldValue } from "./extensions.js";
import type { Expression, Place, Statement } from "./ir.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { isPlace, namedPlace, rememberPlace } from "./places.js";
import { anything } from "./stand-ins.js";
import { BOOL } from "./types.js";

/** An expression, and the statements that it needs before it. */
export type Lowered = readonly [Expression, Statement[]];

export function lowerAside(body: Body, work: () => Expression): Lowered {
  return aside(body, work);
}

/** The parts' statements in the order of the list; what is read before later ones is either of what it was and what it is then. */
export function inOrder(run: Lowering, body: Body, parts: readonly Lowered[]): Expression[] {
  const values: Expression[] = [];
  for (const [value, before] of parts) {
    if (before.length > 0) {
      const former = values.map((earlier) => held(run, body, earlier));
      body.out.push(...before);
      for (const [index, earlier] of values.entries()) values[index] = either(former[index]!, earlier);
    }
    values.push(value);
  }
  return values;
}

function either(former: Expression, now: Expression): Expression {
  if (former === now || actsInside(now)) return former;
  const { type, start, end } = former;
  const condition = anything(former, BOOL);
  const value: Expression = { op: "choose", condition, yes: former, no: rvalue(now), type, start, end };
  rememberPlace(value, () => namedPlace(now));
  return value;
}

/** Arguments, in the order of the text; `last` is what comes behind them all, such as the object of the call. */
export function lowerArguments(run: Lowering, body: Body, nodes: readonly SyntaxNode[], last?: Lowered): Expression[] {
  const parts = nodes.map((node) => lowerAside(body, () => lowerExpression(run, body, node)));
  return inReverse(run, body, parts, last);
}

export function inReverse(run: Lowering, body: Body, parts: readonly Lowered[], last?: Lowered): Expression[] {
  const reversed = [...parts].reverse();
  const values = inOrder(run, body, last === undefined ? reversed : [...reversed, last]);
  return values.slice(0, parts.length).reverse();
}

/** The value as it is now; the place that it was read from can still be referred to. */
export function held(run: Lowering, body: Body, value: Expression): Expression {
  if (isSteady(value)) return value;
  const place = namedPlace(value);
  const kept = heldValue(run, body, rvalue(value));
  if (kept !== value && place !== null) rememberPlace(kept, () => place);
  return kept;
}

/** The place as it is now, whatever its indices and pointers become: a target is found once. */
export function heldPlace(run: Lowering, body: Body, place: Place): Place {
  if (isSteadyPlace(place)) return place;
  switch (place.op) {
    case "member":
      return { ...place, base: heldPlace(run, body, place.base) };
    case "index":
      return { ...place, base: heldPlace(run, body, place.base), index: held(run, body, place.index) };
    case "dereference":
      return { ...place, pointer: held(run, body, place.pointer) };
    default:
      return place;
  }
}

/** Whether finding the place does something itself, such as counting on. */
export function acts(place: Place): boolean {
  switch (place.op) {
    case "index":
      return acts(place.base) || actsInside(place.index);
    case "member":
      return acts(place.base);
    case "dereference":
      return actsInside(place.pointer);
    default:
      return false;
  }
}

function actsInside(expression: Expression): boolean {
  switch (expression.op) {
    case "assign":
    case "core":
    case "unknown":
      return true;
    default:
      return isPlace(expression) ? acts(expression) : operandsOf(expression).some(actsInside);
  }
}

/** Whether no call can change the value. */
function isSteady(expression: Expression): boolean {
  if (isPlace(expression)) return isSteadyPlace(expression) && isOwn(expression);
  switch (expression.op) {
    case "assign":
    case "core":
    case "unknown":
      return false;
    case "load":
      return isSteadyPlace(expression.place) && isOwn(expression.place);
    case "address":
      return isSteadyPlace(expression.place);
    default:
      return operandsOf(expression).every(isSteady);
  }
}

/** Whether it is always the same place. */
function isSteadyPlace(place: Place): boolean {
  switch (place.op) {
    case "index":
      return isSteadyPlace(place.base) && isSteady(place.index);
    case "member":
      return isSteadyPlace(place.base);
    case "dereference":
      return isSteady(place.pointer);
    default:
      return true;
  }
}

/** A local that nobody else can reach, or what never changes. */
function isOwn(place: Place): boolean {
  switch (place.op) {
    case "variable":
      return place.variable.constant || (place.variable.storage === "local" && !place.variable.addressTaken);
    case "index":
    case "member":
      return isOwn(place.base);
    default:
      return false;
  }
}

function operandsOf(expression: Expression): readonly Expression[] {
  switch (expression.op) {
    case "convert":
    case "negate":
    case "complement":
    case "not":
    case "traced":
      return [expression.operand];
    case "binary":
    case "compare":
    case "and":
    case "or":
    case "comma":
    case "distance":
      return [expression.left, expression.right];
    case "offset":
      return [expression.pointer, expression.count];
    case "choose":
      return [expression.condition, expression.yes, expression.no];
    case "load":
    case "address":
      return [expression.place];
    default:
      return [];
  }
}
