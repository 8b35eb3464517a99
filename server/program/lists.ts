/** Lists in braces as values: of a type that is named, or of the type of what they are passed to. */
import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import { initialise, initialiserOf } from "./construction.js";
import { unknown } from "./expressions.js";
import type { Expression, Place } from "./ir.js";
import { type Body, type Lowering, placeOf } from "./lowering.js";
import { readType, readTypeDescriptor } from "./type-syntax.js";
import { INT16, type Type } from "./types.js";

/** Lists whose type is that of what they are passed to. */
const untypedLists = new WeakMap<Expression, SyntaxNode>();

export function untypedList(expression: Expression): SyntaxNode | undefined {
  return untypedLists.get(expression);
}

export function listWithoutType(run: Lowering, node: SyntaxNode, empty = false): Expression {
  const { start, end } = node;
  const list: Expression = empty
    ? { op: "integer", value: 0, type: INT16, start, end }
    : unknown(run, node, "list of values in a place where it was not expected");
  untypedLists.set(list, node);
  return list;
}

/** A temporary of the type, filled from the list. */
export function listAsRecord(run: Lowering, body: Body, type: Type, node: SyntaxNode): Place {
  const temporary = run.temporary(body, type, node.start);
  const place = placeOf(temporary, node.start, node.end);
  body.out.push({ op: "declare", variable: temporary, zero: false, start: node.start });
  initialise(run, body, place, initialiserOf(node), false);
  return place;
}

export function lowerCompoundLiteral(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const typeNode = child(node, "type");
  const value = child(node, "value") ?? ofKind(node, "initializer_list");
  if (typeNode === undefined || value === undefined) return unknown(run, node, "half a value");
  const named = typeNode.kind === "type_descriptor" ? readTypeDescriptor : readType;
  const type = named(run, body.scope, typeNode) ?? INT16;
  const temporary = run.temporary(body, type, node.start);
  const place = placeOf(temporary, node.start, node.end);
  body.out.push({ op: "declare", variable: temporary, zero: false, start: node.start });
  initialise(run, body, place, initialiserOf(value), false);
  return place;
}
