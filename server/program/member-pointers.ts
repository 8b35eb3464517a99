/**
 * Pointers to members: `&C::m`, `object.*p`, `(pointer->*p)(…)`. The parser is given `T C::*p` as `T *p` and `->*p` as `->$p`
 * (parse/respell.ts). Law: a pointer to a data member is its distance from where the object begins, one to a method is the
 * function; a class derived from C that has its C further in gives neither.
 */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { callThrough } from "./calls.js";
import { rvalue } from "./conversions.js";
import { codeToPointTo, offsetWithin } from "./dispatch.js";
import { lowerArguments } from "./evaluation-order.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Place, RecordType } from "./ir.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { objectOf } from "./member-access.js";
import { functionValue } from "./names.js";
import { addressOf, isPlace } from "./places.js";
import { findQualified } from "./qualified-names.js";
import { unknown } from "./stand-ins.js";
import { untraced } from "./tracing.js";
import { INT16, type Type, UINT8 } from "./types.js";

/** What stands for the first byte of an object in a pointer to a data member: far from null, and kept as a number by the executor. */
const MEMBER_BASE = 0x100;

/** `&C::m`; null where the name after `&` is none of a member that lies in objects. */
export function memberPointer(run: Lowering, body: Body, name: SyntaxNode, node: SyntaxNode): Expression | null {
  if (name.kind !== "qualified_identifier") return null;
  const meaning = findQualified(run, body.scope, name);
  const { start, end } = node;
  if (meaning?.kind === "field") {
    if (!beginsItsDerived(run, meaning.record)) return unknown(node, "pointer to a member of a later base class");
    if (meaning.field.offset > 0xff) return unknown(node, "pointer to a member far into its class");
    const value: Expression = { op: "integer", value: MEMBER_BASE + meaning.field.offset, type: INT16, start, end };
    return { op: "convert", operand: value, type: { kind: "pointer", to: meaning.field.type }, start, end };
  }
  if (meaning?.kind !== "functions" || meaning.set.length !== 1) return null;
  const symbol = meaning.set[0]!;
  if (symbol.record === null || symbol.isStatic || symbol.template !== null) return null;
  if (!beginsItsDerived(run, symbol.record)) return unknown(node, "pointer to a method of a later base class");
  return functionValue(codeToPointTo(run, symbol), node);
}

/** Whether every class derived from `base` has it at its beginning. */
function beginsItsDerived(run: Lowering, base: RecordType): boolean {
  return [...run.records.keys()].every((record) => (offsetWithin(record, base) ?? 0) === 0);
}

interface Access {
  readonly object: SyntaxNode;
  readonly arrow: boolean;
  /** What stands behind the operator, up to the end of the node that was asked about. */
  readonly pointer: SyntaxNode;
}

/** `object.*pointer` within a node that the parser reads as a member, and perhaps as an element or a call of that. */
export function memberPointerAccess(run: Lowering, node: SyntaxNode): Access | null {
  const field = node.kind === "field_expression" ? child(node, "field") : undefined;
  if (field !== undefined && run.text[field.start] === "$") {
    const object = child(node, "argument");
    if (object === undefined) return null;
    const name: SyntaxNode = { ...field, kind: "identifier", start: field.start + 1 };
    return { object, arrow: child(node, "operator")?.kind === "->", pointer: name };
  }
  const part = node.kind === "call_expression" ? "function" : "argument";
  if (node.kind !== "field_expression" && node.kind !== "subscript_expression" && part === "argument") return null;
  const inner = child(node, part);
  const found = inner === undefined ? null : memberPointerAccess(run, inner);
  if (found === null) return null;
  // `->*(pointer)`: the parentheses are all there is.
  const bare = found.pointer.start === found.pointer.end;
  const only = bare ? child(node, "arguments")?.children.find((each) => each.named) : undefined;
  const replaced: SyntaxNode = { ...found.pointer, field: part };
  const children = node.children.map((each) => (each === inner ? replaced : each));
  const pointer = bare ? only : { ...node, children, start: found.pointer.start };
  return pointer === undefined ? null : { ...found, pointer };
}

function objectFor(run: Lowering, body: Body, access: Access, node: SyntaxNode): Place | null {
  const given = untraced(run, () => lowerExpression(run, body, access.object));
  const object = objectOf(run, body, given, access.arrow, node);
  return isPlace(object) && object.type.kind === "record" ? object : null;
}

/** The member of the object that the pointer chooses. */
export function lowerChosenMember(run: Lowering, body: Body, access: Access, node: SyntaxNode): Expression {
  const object = objectFor(run, body, access, node);
  const pointer = rvalue(untraced(run, () => lowerExpression(run, body, access.pointer)));
  if (object === null || pointer.type.kind !== "pointer") return unknown(node, "", [pointer]);
  const { start, end } = node;
  const bytes: Type = { kind: "pointer", to: UINT8 };
  const begin: Expression = { op: "convert", operand: addressOf(object), type: bytes, start, end };
  const shown: Expression = { op: "convert", operand: pointer, type: INT16, start, end };
  const base: Expression = { op: "integer", value: MEMBER_BASE, type: INT16, start, end };
  const count: Expression = { op: "binary", operator: "-", left: shown, right: base, type: INT16, start, end };
  const moved: Expression = { op: "offset", pointer: begin, count, size: 1, negative: false, type: bytes, start, end };
  const at: Expression = { op: "convert", operand: moved, type: pointer.type, start, end };
  return { op: "dereference", pointer: at, type: pointer.type.to, start, end };
}

/** A call of the method that the pointer chooses. */
export function callChosenMethod(
  run: Lowering,
  body: Body,
  access: Access,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const [object, beforeObject] = aside(body, () => objectFor(run, body, access, node));
  const args = lowerArguments(run, body, argumentNodes);
  body.out.push(...beforeObject);
  const pointer = untraced(run, () => lowerExpression(run, body, access.pointer));
  if (object === null) return unknown(node, "call on what is no object", [rvalue(pointer), ...args.map(rvalue)]);
  return callThrough(run, body, pointer, args, node, addressOf(object));
}
