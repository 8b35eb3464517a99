/** `&&`, `||` and `?:`. Law: a side that does something becomes a statement that runs only where it is asked for. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { decidedArm } from "./constant-calls.js";
import { condition, convertTo, rvalue, toBool } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Statement } from "./ir.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { isPlace, placeOf } from "./places.js";
import { anything, unknown } from "./stand-ins.js";
import { BOOL, commonArithmetic, decayed, isNumber, sameType, type Type } from "./types.js";

export function lowerLogical(
  run: Lowering,
  body: Body,
  node: SyntaxNode,
  operator: "&&" | "||",
  leftNode: SyntaxNode,
  rightNode: SyntaxNode,
): Expression {
  const { start, end } = node;
  const left = condition(run, body, lowerExpression(run, body, leftNode), leftNode);
  const [right, before] = aside(body, () => condition(run, body, lowerExpression(run, body, rightNode), rightNode));
  const op = operator === "&&" ? "and" : "or";
  if (before.length === 0) return { op, left, right, type: BOOL, start, end };
  // The right side calls a function: it may only run where the left side lets it.
  const temporary = run.temporary(body, BOOL, start);
  const place = placeOf(temporary, start, end);
  const load: Expression = { op: "load", place, type: BOOL, start, end };
  body.out.push({ op: "declare", variable: temporary, zero: false, start });
  body.out.push({ op: "initialise", target: place, value: toBool(left), start, end });
  body.out.push({
    op: "if",
    condition: operator === "&&" ? load : { op: "not", operand: load, type: BOOL, start, end },
    yes: { op: "block", body: [...before, { op: "initialise", target: place, value: toBool(right), start, end }] },
    no: null,
    start,
    end,
    quiet: true,
  });
  return load;
}

export function lowerConditional(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const conditionNode = child(node, "condition");
  const thenNode = child(node, "consequence");
  const elseNode = child(node, "alternative");
  if (conditionNode === undefined || elseNode === undefined) return unknown(node, "half a conditional expression");
  const test = condition(run, body, lowerExpression(run, body, conditionNode), conditionNode);
  const decided = decidedArm(test, thenNode, elseNode);
  if (decided !== undefined) return lowerExpression(run, body, decided);
  const [then, beforeThen] = aside(body, () => lowerExpression(run, body, thenNode ?? conditionNode));
  const [otherwise, beforeElse] = aside(body, () => lowerExpression(run, body, elseNode));
  const bothPlaces = isPlace(then) && isPlace(otherwise) && sameType(then.type, otherwise.type);
  const isVoid = then.type.kind === "void" || otherwise.type.kind === "void";
  const asStatements = beforeThen.length > 0 || beforeElse.length > 0 || isVoid || then.type.kind === "record";
  if (!asStatements) {
    const a = rvalue(then);
    const b = rvalue(otherwise);
    const type = conditionalType(a.type, b.type);
    if (bothPlaces && (a.type.kind === "opaque" || b.type.kind === "opaque")) return unknown(node, "", [a, b]);
    return {
      op: "choose",
      condition: test,
      yes: convertTo(run, body, a, type, node),
      no: convertTo(run, body, b, type, node),
      type,
      start,
      end,
    };
  }
  const type = isVoid ? ({ kind: "void" } as const) : conditionalType(decayed(then.type), decayed(otherwise.type));
  const temporary = isVoid ? null : run.temporary(body, type, start);
  if (temporary !== null) body.out.push({ op: "declare", variable: temporary, zero: false, start });
  const arm = (value: Expression, before: readonly Statement[]): Statement => {
    const [, after] = aside(body, () => {
      if (temporary === null) {
        body.out.push({ op: "expression", expression: value, start, end });
        return;
      }
      const place = placeOf(temporary, start, end);
      if (type.kind === "record" && isPlace(value)) body.out.push({ op: "copy", target: place, source: value, start });
      else
        body.out.push({ op: "initialise", target: place, value: convertTo(run, body, value, type, node), start, end });
    });
    return { op: "block", body: [...before, ...after] };
  };
  body.out.push({
    op: "if",
    condition: test,
    yes: arm(then, beforeThen),
    no: arm(otherwise, beforeElse),
    start,
    end,
  });
  if (temporary === null) return anything(node, type);
  return placeOf(temporary, start, end);
}

function conditionalType(left: Type, right: Type): Type {
  if (sameType(left, right)) return left;
  const numbers = isNumber(left) && isNumber(right);
  if (numbers) return commonArithmetic(left, right);
  return left.kind === "pointer" ? left : right.kind === "pointer" ? right : left;
}
