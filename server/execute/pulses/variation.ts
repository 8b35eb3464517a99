/**
 * By how much the same code may take longer one time than another. Law: two runs along the same path through the same
 * statements differ by no more.
 */
import { constantOf } from "../../program/constant.js";
import type { Expression, Place } from "../../program/ir.js";
import type { Type } from "../../program/types.js";
import { conversion, measure, operation, placeCost } from "./costs.js";

const variations = new WeakMap<Expression, number>();

/** Cycles by which an expression may take longer one time than another: what goes by the values, or is done on some paths only. */
export function variationOf(expression: Expression): number {
  let known = variations.get(expression);
  if (known === undefined) {
    known = variation(expression);
    variations.set(expression, known);
  }
  return known;
}

function variation(expression: Expression): number {
  switch (expression.op) {
    case "load":
    case "address":
      return placeVariation(expression.place);
    case "traced":
    case "negate":
    case "complement":
    case "not":
      return variation(expression.operand) + (expression.type.kind === "float" ? 20 : 2);
    case "convert":
      return variation(expression.operand) + (conversion(expression.operand.type, expression.type) >= 200 ? 200 : 0);
    case "binary":
      return variation(expression.left) + variation(expression.right) + unsteady(expression.operator, expression);
    case "compare":
      return (
        variation(expression.left) + variation(expression.right) + (expression.left.type.kind === "float" ? 150 : 4)
      );
    case "comma":
      return variation(expression.left) + variation(expression.right);
    case "assign": {
      const own = variation(expression.value) + placeVariation(expression.target);
      if (expression.operator === null) return own;
      return own + unsteady(expression.operator, { type: expression.working, right: expression.value });
    }
    case "core":
      return expression.arguments.reduce((sum, argument) => sum + variation(argument), 0);
    case "integer":
    case "real":
    case "null":
    case "text":
    case "function":
      return 0;
    case "variable":
    case "register":
    case "member":
    case "index":
    case "dereference":
      return placeVariation(expression);
    default:
      return measure(expression, false);
  }
}

function placeVariation(place: Place): number {
  switch (place.op) {
    case "variable":
    case "register":
      return 0;
    case "member":
      return placeVariation(place.base);
    case "index":
      return placeVariation(place.base) + variation(place.index);
    case "dereference":
      return variation(place.pointer);
    default:
      return placeCost(place, false);
  }
}

/** Division, floats and shifts by a variable go by what they are given. */
function unsteady(operator: string, { type, right }: { readonly type: Type; readonly right: Expression }): number {
  if (type.kind === "float" || operator === "/" || operator === "%") return operation(operator, type);
  if (operator === "*") return 20;
  const shifts = operator === "<<" || operator === ">>";
  return shifts && constantOf(right) === undefined ? operation(operator, type) : 0;
}
