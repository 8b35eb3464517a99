/** Conversions. Law: every change of type in the program stands in the tree; a place that is read says so. */
import { callFunction } from "./call-statement.js";
import { asRelative } from "./dispatch.js";
import type { Expression, Place, Stretch } from "./ir.js";
import { listAsRecord, untypedList } from "./lists.js";
import type { Body, Lowering } from "./lowering.js";
import { convertObject } from "./operators.js";
import { chooseOverload } from "./overloads.js";
import { addressOf, baseWithin, isPlace, markAddressTaken, namedPlace, placeOf } from "./places.js";
import { unknown } from "./stand-ins.js";
import { BOOL, INT16, sameType, type Type } from "./types.js";

/** The value of an expression: places are read, arrays and functions become pointers. */
export function rvalue(expression: Expression): Expression {
  if (!isPlace(expression)) return expression;
  const { start, end } = expression;
  if (expression.type.kind === "array") {
    const first: Place = {
      op: "index",
      base: expression,
      index: { op: "integer", value: 0, type: INT16, start, end },
      type: expression.type.of,
      start,
      end,
    };
    markAddressTaken(expression);
    return { op: "address", place: first, type: { kind: "pointer", to: expression.type.of }, start, end };
  }
  if (expression.type.kind === "record" || expression.type.kind === "opaque") return expression;
  if (expression.type.kind === "function") return addressOf(expression);
  return { op: "load", place: expression, type: expression.type, start, end };
}

/** Implicit conversion to `type`. */
export function convertTo(run: Lowering, body: Body, expression: Expression, type: Type, node: Stretch): Expression {
  if (type.kind === "reference") return referenceTo(run, body, expression, type.to, node);
  const list = type.kind === "record" ? untypedList(expression) : undefined;
  if (list !== undefined) return listAsRecord(run, body, type, list);
  if (type.kind === "record") {
    if (expression.type.kind === "record" && expression.type.record === type.record) return expression;
    const place = run.freshTemporary(body, type, node);
    convertIntoRecord(run, body, place, expression, node);
    return place;
  }
  if (expression.type.kind === "record" && type.kind !== "opaque") {
    const converted = convertObject(run, body, expression, type, node);
    if (converted !== null) return convertTo(run, body, converted, type, node);
    if (expression.type.record.fields.length === 0 && type.kind === "pointer")
      return unknown(node, "object used as a pointer");
  }
  const value = rvalue(expression);
  if (sameType(value.type, type)) return value;
  return { op: "convert", operand: asRelative(value, type), type, start: value.start, end: value.end };
}

function convertIntoRecord(run: Lowering, body: Body, place: Place, expression: Expression, node: Stretch): void {
  if (isPlace(expression) && place.type.kind === "record") {
    const path = baseWithin(expression, place.type.record);
    if (path !== null) {
      body.out.push({ op: "copy", target: place, source: path, start: node.start });
      return;
    }
  }
  constructFrom(run, body, place, [expression], node);
}

function constructFrom(run: Lowering, body: Body, place: Place, args: readonly Expression[], node: Stretch): void {
  if (place.type.kind !== "record") return;
  const info = run.records.get(place.type.record);
  const chosen = info === undefined ? null : chooseOverload(run, info.constructors, args, null);
  if (chosen === null) {
    run.gap(node, `no way to make a ${place.type.record.name} of this`);
    return;
  }
  callFunction(run, body, chosen, args, addressOf(place), node);
}

/** A pointer to where the expression's value lives; a temporary is made for a plain value. */
export function referenceTo(run: Lowering, body: Body, expression: Expression, to: Type, node: Stretch): Expression {
  const pointer: Type = { kind: "pointer", to };
  const { start, end } = node;
  const list = to.kind === "record" ? untypedList(expression) : undefined;
  if (list !== undefined) return { ...addressOf(listAsRecord(run, body, to, list)), type: pointer } as Expression;
  const named = namedPlace(expression);
  if (named !== null) {
    if (named.type.kind === "record" && to.kind === "record" && named.type.record !== to.record) {
      const base = baseWithin(named, to.record);
      if (base !== null) return { ...(addressOf(base) as Extract<Expression, { op: "address" }>), type: pointer };
    }
    if (sameType(named.type, to) || named.type.kind !== "integer" || to.kind !== "integer") {
      markAddressTaken(named);
      return { op: "address", place: named, type: pointer, start, end };
    }
  }
  if (to.kind === "function" && expression.op === "function") return { ...expression, type: pointer };
  const temporary = run.temporary(body, to, start);
  temporary.addressTaken = true;
  const value = to.kind === "record" ? expression : convertTo(run, body, expression, to, node);
  if (to.kind === "record") {
    const place = placeOf(temporary, start, end);
    body.out.push({ op: "declare", variable: temporary, zero: false, start });
    convertIntoRecord(run, body, place, value, node);
    return { op: "address", place, type: pointer, start, end };
  }
  const place: Place = { op: "temporary", variable: temporary, value, type: to, start, end };
  return { op: "address", place, type: pointer, start, end };
}

/** The expression as something true or false. */
export function condition(run: Lowering, body: Body, expression: Expression, node: Stretch): Expression {
  if (expression.type.kind === "record") {
    const converted = convertObject(run, body, expression, BOOL, node);
    if (converted !== null) return rvalue(converted);
  }
  return rvalue(expression);
}

export function toBool(expression: Expression): Expression {
  return sameType(expression.type, BOOL)
    ? expression
    : { op: "convert", operand: expression, type: BOOL, start: expression.start, end: expression.end };
}
