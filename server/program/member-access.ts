/** `a.b`, `a->b` and `a[i]`. Law: what they name stays a place. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { rvalue } from "./conversions.js";
import { inOrder, inReverse, lowerAside } from "./evaluation-order.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { operatorCall } from "./operators.js";
import { fieldOf, isPlace, placeOf } from "./places.js";
import { scopeOfType } from "./qualified-names.js";
import { unknown } from "./stand-ins.js";
import { untraced } from "./tracing.js";
import { sizeOf } from "./types.js";

/** What stands before `.` or `->`, as a place. */
export function objectOf(run: Lowering, body: Body, expression: Expression, arrow: boolean, node: Stretch): Expression {
  const { start, end } = node;
  if (!arrow) return expression;
  if (expression.type.kind === "record") {
    const own = operatorCall(run, body, "operator->", expression, [], node);
    if (own !== null) return objectOf(run, body, own, true, node);
  }
  const pointer = rvalue(expression);
  if (pointer.type.kind !== "pointer") return unknown(node, "", [pointer]);
  return { op: "dereference", pointer, type: pointer.type.to, start, end };
}

export function lowerField(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const argument = child(node, "argument");
  const fieldNode = child(node, "field");
  const arrow = child(node, "operator")?.kind === "->";
  if (argument === undefined || fieldNode === undefined) return unknown(node, "half a member access");
  const object = untraced(run, () => objectOf(run, body, lowerExpression(run, body, argument), arrow, node));
  if (object.type.kind !== "record" || !isPlace(object)) return unknown(node, "", [object]);
  const scope = scopeOfType(run, object.type);
  const meaning = scope?.own(run.textOf(fieldNode));
  if (meaning?.kind === "field") {
    return fieldOf(object, meaning.record, meaning.field, node);
  }
  if (meaning?.kind === "variable") return placeOf(meaning.variable, start, end);
  if (meaning?.kind === "constant") return { op: "integer", value: meaning.value, type: meaning.type, start, end };
  return unknown(node, `${run.textOf(fieldNode)} is no member of ${object.type.record.name}`);
}

export function lowerSubscript(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const argument = child(node, "argument");
  const indices = child(node, "indices") ?? child(node, "index");
  const indexNode = indices?.kind === "subscript_argument_list" ? indices.children.find((part) => part.named) : indices;
  if (argument === undefined || indexNode === undefined) return unknown(node, "half an index");
  const parts = [
    lowerAside(body, () => untraced(run, () => lowerExpression(run, body, argument))),
    lowerAside(body, () => lowerExpression(run, body, indexNode)),
  ];
  const ordered = parts[0]![0].type.kind === "record" ? inReverse : inOrder;
  const [base, index] = ordered(run, body, parts) as [Expression, Expression];
  if (base.type.kind === "record") {
    const own = operatorCall(run, body, "operator[]", base, [index], node);
    if (own !== null) return own;
  }
  const position = rvalue(index);
  if (isPlace(base) && base.type.kind === "array") {
    return { op: "index", base, index: position, type: base.type.of, start, end };
  }
  const pointer = rvalue(base);
  if (pointer.type.kind !== "pointer") return unknown(node, "", [pointer, position]);
  const size = Math.max(1, sizeOf(pointer.type.to));
  const moved: Expression = {
    op: "offset",
    pointer,
    count: position,
    size,
    negative: false,
    type: pointer.type,
    start,
    end,
  };
  return { op: "dereference", pointer: moved, type: pointer.type.to, start, end };
}
