/** Lists in braces as values: of a type that is named, or of the type of what they are passed to. */

import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import { designated, type Initialiser, initialise, initialiserOf } from "./construction.js";
import { readTypeDescriptor } from "./declarators.js";
import { withBraces } from "./elided-braces.js";
import type { Expression, Place } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { expandPacks } from "./packs.js";
import { unknown } from "./stand-ins.js";
import { textBytes } from "./texts.js";
import { readType } from "./type-syntax.js";
import { INT16, type Type } from "./types.js";

/** Lists whose type is that of what they are passed to. */
const untypedLists = new WeakMap<Expression, SyntaxNode>();

export function untypedList(expression: Expression): SyntaxNode | undefined {
  return untypedLists.get(expression);
}

export function listWithoutType(node: SyntaxNode, empty = false): Expression {
  const { start, end } = node;
  const list: Expression = empty
    ? { op: "integer", value: 0, type: INT16, start, end }
    : unknown(node, "list of values in a place where it was not expected");
  untypedLists.set(list, node);
  return list;
}

/** A temporary of the type, filled from the list. */
export function listAsRecord(run: Lowering, body: Body, type: Type, node: SyntaxNode, list = node): Place {
  const place = run.freshTemporary(body, type, node);
  initialise(run, body, place, initialiserOf(list), false);
  return place;
}

export function lowerCompoundLiteral(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const typeNode = child(node, "type");
  const value = child(node, "value") ?? ofKind(node, "initializer_list");
  if (typeNode === undefined || value === undefined) return unknown(node, "half a value");
  const named = typeNode.kind === "type_descriptor" ? readTypeDescriptor : readType;
  const type = named(run, body.scope, typeNode) ?? INT16;
  return listAsRecord(run, body, type, node, value);
}

/** The length an unsized array takes from its initialiser; null where it has none. */
export function lengthFrom(run: Lowering, body: Body, of: Type, initialiser: Initialiser): number | null {
  if (initialiser.kind === "value" && initialiser.node.kind === "string_literal")
    return textBytes(run, initialiser.node).length + 1;
  if (initialiser.kind !== "list") return null;
  let length = 0;
  let index = 0;
  const given = initialiser.node.children.filter((part) => part.named);
  for (const item of withBraces(run, body, { kind: "array", of, length: null }, expandPacks(run, body.scope, given))) {
    if (item.kind === "initializer_pair") index = designated(run, body, item)?.last ?? index;
    index++;
    length = Math.max(length, index);
  }
  return length;
}
