/** Which expressions do something besides having a value. */
import type { Expression } from "../program/ir.js";
import { isPureCore } from "./facts.js";

/** Whether evaluating may change the state. */
export function hasEffects(expression: Expression): boolean {
  switch (expression.op) {
    case "assign":
    case "unknown":
    case "temporary":
      return true;
    case "core":
      return !isPureCore(expression.name) || expression.arguments.some(hasEffects);
    case "load":
      return hasEffects(expression.place);
    case "address":
      return hasEffects(expression.place);
    case "dereference":
      return hasEffects(expression.pointer);
    case "index":
      return hasEffects(expression.base) || hasEffects(expression.index);
    case "member":
      return hasEffects(expression.base);
    case "convert":
    case "negate":
    case "complement":
    case "not":
    case "traced":
      return hasEffects(expression.operand);
    case "binary":
    case "compare":
    case "and":
    case "or":
    case "comma":
    case "distance":
      return hasEffects(expression.left) || hasEffects(expression.right);
    case "offset":
      return hasEffects(expression.pointer) || hasEffects(expression.count);
    case "choose":
      return hasEffects(expression.condition) || hasEffects(expression.yes) || hasEffects(expression.no);
    default:
      return false;
  }
}
