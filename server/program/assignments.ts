/** Assignments and counting. Law: the type in which an operator works is said, and so is the right side as it was written. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { pointerArithmetic } from "./arithmetic.js";
import { convertTo, rvalue } from "./conversions.js";
import { acts, held, heldPlace, lowerAside } from "./evaluation-order.js";
import { lowerExpression } from "./expressions.js";
import type { BinaryOperator, Expression, Place, Stretch } from "./ir.js";
import { listAsRecord } from "./lists.js";
import type { Body, Lowering } from "./lowering.js";
import { convertObject, mayOverload, operatorCall } from "./operators.js";
import { isPlace, namedPlace } from "./places.js";
import { unknown } from "./stand-ins.js";
import { untraced } from "./tracing.js";
import { commonArithmetic, INT16, isNumber, promoted } from "./types.js";

type Assignment = Extract<Expression, { op: "assign" }>;

/** True where the place may be a register, so that the write is worth keeping as written. */
function mayBeRegister(place: Expression): boolean {
  switch (place.op) {
    case "register":
    case "dereference":
      return true;
    case "index":
    case "member":
      return mayBeRegister(place.base);
    default:
      return false;
  }
}

export function lowerAssignment(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const leftNode = child(node, "left");
  const rightNode = child(node, "right");
  const token = child(node, "operator")?.kind ?? "=";
  if (leftNode === undefined || rightNode === undefined) return unknown(node, "half an assignment");
  const operator = token === "=" ? null : (token.slice(0, -1) as BinaryOperator);
  const outerTrace = run.tracing;
  run.tracing = null;
  const [named, beforeLeft] = lowerAside(body, () => lowerExpression(run, body, leftNode));
  let target = namedPlace(named) ?? named;
  const { type } = target;
  const tracing = isPlace(target) && mayBeRegister(target);
  run.tracing = tracing ? [] : null;
  let [value, beforeRight] = lowerAside(body, () =>
    rightNode.kind === "initializer_list" && type.kind === "record"
      ? listAsRecord(run, body, type, rightNode)
      : lowerExpression(run, body, rightNode),
  );
  const root = run.tracing?.pop() ?? null;
  run.tracing = outerTrace;
  if (operator === null && type.kind !== "record") {
    body.out.push(...beforeLeft);
    if (beforeRight.length > 0 && isPlace(target)) target = heldPlace(run, body, target);
    body.out.push(...beforeRight);
  } else {
    body.out.push(...beforeRight);
    const found = isPlace(target) && acts(target) ? target : null;
    if (found !== null || beforeLeft.length > 0) value = held(run, body, value);
    body.out.push(...beforeLeft);
    if (found !== null) target = heldPlace(run, body, found);
  }
  let written = -1;
  if (tracing) {
    written = run.written.length;
    run.written.push(root);
  }
  if (operator !== null && mayOverload(target.type)) {
    const own = operatorCall(run, body, `operator${token}`, target, [value], node);
    if (own !== null) return own;
  }
  return assign(run, body, target, operator, value, node, written);
}

function assign(
  run: Lowering,
  body: Body,
  target: Expression,
  operator: BinaryOperator | null,
  given: Expression,
  node: SyntaxNode,
  written: number,
): Expression {
  const isObject = given.type.kind === "record" && target.type.kind !== "record";
  const value = isObject ? (convertObject(run, body, given, target.type, node) ?? given) : given;
  const { start, end } = node;
  if (!isPlace(target)) {
    const why = target.op === "unknown" ? "" : "assignment to what is no place";
    return unknown(node, why, [target, rvalue(value)]);
  }
  if (target.type.kind === "record") {
    const own = operatorCall(run, body, "operator=", target, [value], node);
    if (own !== null) return own;
    const source = convertTo(run, body, value, target.type, node);
    if (isPlace(source) && source.type.kind === "record") {
      body.out.push({ op: "copy", target, source, start });
      return target;
    }
    return unknown(node, "object set from something not followed", [source]);
  }
  if (target.type.kind === "opaque") {
    return unknown(node, target.op === "nowhere" ? target.why : "", [target, rvalue(value)]);
  }
  const right = rvalue(value);
  const { type } = target;
  if (operator === null) {
    const asked = written >= 0 ? right : null;
    return set(node, target, convertTo(run, body, value, type, node), { working: right.type, asked, written });
  }
  if (type.kind === "pointer") {
    return set(node, target, pointerArithmetic(operator, { op: "load", place: target, type, start, end }, right, node));
  }
  if (!isNumber(type) || !isNumber(right.type)) {
    return set(node, target, { op: "convert", operand: unknown(node, "", [right]), type, start, end });
  }
  const shift = operator === "<<" || operator === ">>";
  const working = shift ? promoted(type) : commonArithmetic(type, right.type);
  const operand = convertTo(run, body, right, shift ? promoted(right.type) : working, node);
  return set(node, target, operand, { operator, working, written });
}

/** `target = value`, with what differs from a plain assignment of a value of the target's own type. */
function set(node: Stretch, target: Place, value: Expression, more: Partial<Assignment> = {}): Expression {
  return {
    op: "assign",
    target,
    operator: null,
    working: target.type,
    value,
    asked: null,
    written: -1,
    increment: null,
    old: false,
    type: target.type,
    start: node.start,
    end: node.end,
    ...more,
  };
}

export function lowerUpdate(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const argument = child(node, "argument");
  const operatorNode = child(node, "operator");
  if (argument === undefined || operatorNode === undefined) return unknown(node, "half an expression");
  const named = untraced(run, () => lowerExpression(run, body, argument));
  const place = namedPlace(named);
  const target = place === null ? named : acts(place) ? heldPlace(run, body, place) : place;
  const increment = operatorNode.kind === "++" ? "++" : "--";
  const postfix = operatorNode.start > argument.start;
  if (mayOverload(target.type)) {
    const own = operatorCall(
      run,
      body,
      `operator${increment}`,
      target,
      postfix ? [{ op: "integer", value: 0, type: INT16, start, end }] : [],
      node,
    );
    if (own !== null) return own;
  }
  if (!isPlace(target)) return unknown(node, "counting what is no place", [target]);
  const { type } = target;
  const one: Expression = { op: "integer", value: 1, type: INT16, start, end };
  if (type.kind === "pointer") {
    const before: Expression = { op: "load", place: target, type, start, end };
    const moved = pointerArithmetic(increment === "++" ? "+" : "-", before, one, node);
    return set(node, target, moved, { increment, old: postfix });
  }
  if (!isNumber(type)) return unknown(node, "", [target]);
  const working = commonArithmetic(type, INT16);
  const operator = increment === "++" ? "+" : "-";
  return set(node, target, convertTo(run, body, one, working, node), { operator, working, increment, old: postfix });
}
