/** `sizeof` and its kin: numbers, not evaluation. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { readTypeDescriptor } from "./declarators.js";
import { offsetWithin } from "./dispatch.js";
import { lowerExpression } from "./expressions.js";
import type { Expression } from "./ir.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { scopeOfType } from "./qualified-names.js";
import { unknown } from "./stand-ins.js";
import { textBytes } from "./texts.js";
import { namesType, readType } from "./type-syntax.js";
import { CHAR, sizeOf, type Type, UINT16 } from "./types.js";

/** `offsetof(S, member)`: how far in the member begins. */
export function lowerOffsetof(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const [typeNode, member] = [child(node, "type"), child(node, "member")];
  const type = typeNode === undefined ? null : readTypeDescriptor(run, body.scope, typeNode);
  const name = member === undefined ? "" : run.textOf(member);
  const meaning = type === null ? undefined : scopeOfType(run, type)?.own(name);
  if (type?.kind !== "record" || meaning?.kind !== "field") return unknown(node, `offset of ${name} was not seen`);
  const home = offsetWithin(type.record, meaning.record) ?? 0;
  return { op: "integer", value: home + meaning.field.offset, type: UINT16, start, end };
}

export function lowerSizeof(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const typeNode = child(node, "type");
  const valueNode = child(node, "value");
  let type: Type | null = null;
  const pack = valueNode === undefined ? undefined : body.scope.find(run.textOf(valueNode));
  if (pack?.kind === "pack") return { op: "integer", value: pack.items.length, type: UINT16, start, end };
  if (typeNode !== undefined) type = readTypeDescriptor(run, body.scope, typeNode);
  else if (valueNode !== undefined) {
    const inner =
      valueNode.kind === "parenthesized_expression"
        ? (valueNode.children.find((part) => part.named) ?? valueNode)
        : valueNode;
    if (inner.kind === "identifier" && namesType(run, body.scope, inner)) type = readType(run, body.scope, inner);
    else [type] = aside(body, () => lowerExpression(run, body, valueNode).type);
    if (inner.kind === "string_literal") type = { kind: "array", of: CHAR, length: textBytes(run, inner).length + 1 };
  }
  const size = type === null ? 0 : node.kind === "alignof_expression" ? 1 : sizeOf(type);
  if (size === 0) return { ...unknown(node, "size of something that was not seen"), type: UINT16 } as Expression;
  return { op: "integer", value: size, type: UINT16, start, end };
}
