/** Operators with one or two operands. Law: both sides are promoted and brought to one type before anything is worked out. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { lowerLogical } from "./choices.js";
import { condition, convertTo, rvalue } from "./conversions.js";
import { CORE_CLASSES } from "./core-functions.js";
import { inOrder, inReverse, lowerAside } from "./evaluation-order.js";
import { lowerExpression } from "./expressions.js";
import type { BinaryOperator, Comparison, Expression, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { memberPointer } from "./member-pointers.js";
import { castInDisguise } from "./misread-casts.js";
import { convertObject, functionsBeside, mayOverload, operatorCall } from "./operators.js";
import { addressOf, namedPlace } from "./places.js";
import { anything, unknown } from "./stand-ins.js";
import { untraced } from "./tracing.js";
import { BOOL, commonArithmetic, INT16, isNumber, promoted, sizeOf } from "./types.js";

export function lowerUnary(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const operator = child(node, "operator")?.kind ?? "";
  const argument = child(node, "argument");
  const { start, end } = node;
  if (argument === undefined) return unknown(node, "half an expression");
  const member = operator === "&" ? memberPointer(run, body, argument, node) : null;
  if (member !== null) return member;
  const operand =
    operator === "&" ? untraced(run, () => lowerExpression(run, body, argument)) : lowerExpression(run, body, argument);
  if (mayOverload(operand.type)) {
    const own = operatorCall(run, body, `operator${operator}`, operand, [], node);
    if (own !== null) return own;
  }
  switch (operator) {
    case "&": {
      if (operand.op === "function") return operand;
      const place = namedPlace(operand);
      if (place === null) return unknown(node, "address of a value");
      return { ...(addressOf(place) as Extract<Expression, { op: "address" }>), start, end };
    }
    case "*": {
      const pointer = rvalue(operand);
      if (pointer.op === "function") return pointer;
      if (pointer.type.kind !== "pointer") return unknown(node, "dereference of what is no pointer", [pointer]);
      if (pointer.type.to.kind === "function") return { ...pointer, start, end } as Expression;
      return { op: "dereference", pointer, type: pointer.type.to, start, end };
    }
    case "!":
    case "not":
      return { op: "not", operand: condition(run, body, operand, node), type: BOOL, start, end };
    case "-":
    case "~":
    case "compl":
    case "+": {
      const value = rvalue(operand);
      if (!isNumber(value.type))
        return unknown(node, value.op === "unknown" ? "" : "arithmetic on what is no number", [value]);
      const type = promoted(value.type);
      const widened = convertTo(run, body, value, type, node);
      if (operator === "+") return widened;
      return { op: operator === "-" ? "negate" : "complement", operand: widened, type, start, end };
    }
    default:
      return unknown(node, `operator ${operator} not followed`, [rvalue(operand)]);
  }
}

const ARITHMETIC = new Set(["+", "-", "*", "/", "%", "&", "|", "^", "<<", ">>"]);

const COMPARISONS = new Set(["<", "<=", ">", ">=", "==", "!="]);

const SPELLED: Readonly<Record<string, string>> = {
  and: "&&",
  or: "||",
  bitand: "&",
  bitor: "|",
  xor: "^",
  not_eq: "!=",
};

export function lowerBinary(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const leftNode = child(node, "left");
  const rightNode = child(node, "right");
  const written = child(node, "operator")?.kind ?? "";
  const operator = SPELLED[written] ?? written;
  if (leftNode === undefined || rightNode === undefined) return unknown(node, "half an expression");
  const disguised = castInDisguise(run, body, node, leftNode, rightNode, operator);
  if (disguised !== null) return lowerExpression(run, body, disguised);
  if (operator === "&&" || operator === "||") return lowerLogical(run, body, node, operator, leftNode, rightNode);
  const parts = [leftNode, rightNode].map((part) => lowerAside(body, () => lowerExpression(run, body, part)));
  const operands = parts.map(([part]) => part);
  const own =
    operands.some(({ type }) => type.kind === "record" || type.kind === "opaque") ||
    (operands.some(({ type }) => mayOverload(type)) &&
      functionsBeside(run, body, `operator${operator}`, operands).length > 0);
  const [left, right] = (own ? inReverse : inOrder)(run, body, parts) as [Expression, Expression];
  if (own) {
    const called = operatorCall(run, body, `operator${operator}`, left, [right], node);
    if (called !== null) return called;
  }
  return arithmetic(run, body, operator, asNumber(run, body, left, node), asNumber(run, body, right, node), node);
}

/** An object as what its conversion operator makes of it; anything else as it is. */
function asNumber(run: Lowering, body: Body, expression: Expression, node: Stretch): Expression {
  if (expression.type.kind !== "record") return expression;
  return convertObject(run, body, expression, INT16, node) ?? expression;
}

/** An operator between texts of the core or objects of its quiet classes: an unknown result, nothing else. */
function quietOperation(operator: string, left: Expression, right: Expression, node: Stretch): Expression | null {
  const object = [left, right].find(({ type }) => type.kind === "opaque" && CORE_CLASSES.get(type.name) === "quiet");
  if (object === undefined) return null;
  const type = COMPARISONS.has(operator) ? BOOL : object.type;
  return anything(node, type, [left, right]);
}

/** `left op right` for numbers and pointers. */
export function arithmetic(
  run: Lowering,
  body: Body,
  operator: string,
  leftSide: Expression,
  rightSide: Expression,
  node: Stretch,
): Expression {
  const { start, end } = node;
  const left = rvalue(leftSide);
  const right = rvalue(rightSide);
  const quiet = quietOperation(operator, left, right, node);
  if (quiet !== null) return quiet;
  if (COMPARISONS.has(operator)) return comparison(run, body, operator as Comparison, left, right, node);
  if (!ARITHMETIC.has(operator)) return unknown(node, `operator ${operator} not followed`, [left, right]);
  if (left.type.kind === "pointer" || right.type.kind === "pointer") {
    return pointerArithmetic(operator, left, right, node);
  }
  const bothNumbers = isNumber(left.type) && isNumber(right.type);
  if (!bothNumbers) return unknown(node, "", [left, right]);
  if (operator === "<<" || operator === ">>") {
    const type = promoted(left.type);
    return {
      op: "binary",
      operator,
      left: convertTo(run, body, left, type, node),
      right: convertTo(run, body, right, promoted(right.type), node),
      type,
      start,
      end,
    };
  }
  const type = commonArithmetic(left.type, right.type);
  return {
    op: "binary",
    operator: operator as BinaryOperator,
    left: convertTo(run, body, left, type, node),
    right: convertTo(run, body, right, type, node),
    type,
    start,
    end,
  };
}

function comparison(
  run: Lowering,
  body: Body,
  operator: Comparison,
  left: Expression,
  right: Expression,
  node: Stretch,
): Expression {
  const { start, end } = node;
  const numbers = isNumber(left.type) && isNumber(right.type);
  if (numbers) {
    const type = commonArithmetic(left.type, right.type);
    return {
      op: "compare",
      operator,
      left: convertTo(run, body, left, type, node),
      right: convertTo(run, body, right, type, node),
      type: BOOL,
      start,
      end,
    };
  }
  if (left.type.kind === "pointer" || right.type.kind === "pointer") {
    return { op: "compare", operator, left, right, type: BOOL, start, end };
  }
  return { ...unknown(node, "", [left, right]), type: BOOL } as Expression;
}

export function pointerArithmetic(operator: string, left: Expression, right: Expression, node: Stretch): Expression {
  const { start, end } = node;
  if (left.type.kind === "pointer" && right.type.kind === "pointer") {
    if (operator !== "-") return unknown(node, "arithmetic on two pointers", [left, right]);
    return { op: "distance", left, right, size: Math.max(1, sizeOf(left.type.to)), type: INT16, start, end };
  }
  const pointer = left.type.kind === "pointer" ? left : right;
  const count = pointer === left ? right : left;
  if (pointer.type.kind !== "pointer" || count.type.kind !== "integer" || (operator !== "+" && operator !== "-")) {
    return unknown(node, "arithmetic on a pointer", [left, right]);
  }
  return {
    op: "offset",
    pointer,
    count,
    size: Math.max(1, sizeOf(pointer.type.to)),
    negative: operator === "-",
    type: pointer.type,
    start,
    end,
  };
}
