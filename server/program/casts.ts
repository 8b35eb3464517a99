/** Casts, by whatever spelling: `(T) v`, `T(v)`, `static_cast<T>(v)`; a class gives a new object. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { initialise } from "./construction.js";
import { convertTo, rvalue } from "./conversions.js";
import { CORE_CLASSES, CORE_FUNCTIONS } from "./core-functions.js";
import { readTypeDescriptor } from "./declarators.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Stretch } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { madeWith } from "./pins-of-libraries.js";
import { addressOf, isPlace, namedPlace } from "./places.js";
import { noValue, unknown } from "./stand-ins.js";
import { namesType, readType } from "./type-syntax.js";
import { INT16, type Type } from "./types.js";

/** A cast, by whatever spelling. */
export function cast(run: Lowering, body: Body, expression: Expression, type: Type, node: Stretch): Expression {
  const { start, end } = node;
  if (type.kind === "void") {
    body.out.push({ op: "expression", expression, start, end });
    return noValue(node);
  }
  const place = type.kind === "reference" ? namedPlace(expression) : null;
  if (type.kind === "reference" && place !== null) {
    // A reinterpreting cast: the same place seen as another type.
    const pointer: Type = { kind: "pointer", to: type.to };
    const address = addressOf(place);
    return {
      op: "dereference",
      pointer: { op: "convert", operand: address, type: pointer, start, end },
      type: type.to,
      start,
      end,
    };
  }
  const converted = convertTo(run, body, expression, type, node);
  if (isPlace(converted)) return converted;
  // An enumeration and its base are as wide, and yet two types.
  return type.kind === "integer" ? { ...converted, type, start, end } : { ...converted, start, end };
}

export function namedCast(
  run: Lowering,
  body: Body,
  target: SyntaxNode,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression | null {
  const name = child(target, "name");
  if (name === undefined || !NAMED_CASTS.has(run.textOf(name))) return null;
  const typeNode = child(target, "arguments")?.children.find((part) => part.named);
  const first = argumentNodes[0];
  if (typeNode === undefined || first === undefined) return unknown(node, "half a cast");
  const type = readTypeDescriptor(run, body.scope, typeNode) ?? INT16;
  return cast(run, body, lowerExpression(run, body, first), type, node);
}

export const NAMED_CASTS = new Set(["static_cast", "reinterpret_cast", "const_cast", "dynamic_cast"]);

export function makeValue(
  run: Lowering,
  body: Body,
  target: SyntaxNode,
  argumentNodes: readonly SyntaxNode[],
  node: SyntaxNode,
): Expression {
  const typeNode: SyntaxNode = target.kind === "template_function" ? { ...target, kind: "template_type" } : target;
  const type = readType(run, body.scope, typeNode) ?? INT16;
  if (type.kind === "record") {
    const place = run.freshTemporary(body, type, node);
    initialise(run, body, place, { kind: "arguments", nodes: argumentNodes }, argumentNodes.length === 0);
    return place;
  }
  if (type.kind === "opaque") {
    const args = argumentNodes.map((argument) => rvalue(lowerExpression(run, body, argument)));
    madeWith(run, body, type.name, args, null, node);
    return {
      op: "unknown",
      why: "",
      operands: args,
      harmless: CORE_CLASSES.has(type.name),
      type,
      start: node.start,
      end: node.end,
    };
  }
  const first = argumentNodes[0];
  if (first === undefined) return { op: "integer", value: 0, type, start: node.start, end: node.end };
  return cast(run, body, lowerExpression(run, body, first), type, node);
}

export function isTypeName(run: Lowering, body: Body, node: SyntaxNode): boolean {
  if (
    node.kind !== "identifier" &&
    node.kind !== "qualified_identifier" &&
    node.kind !== "template_function" &&
    node.kind !== "type_identifier"
  )
    return false;
  if (
    node.kind === "identifier" &&
    CORE_FUNCTIONS.has(run.textOf(node)) &&
    body.scope.find(run.textOf(node)) === undefined
  )
    return false;
  return (
    namesType(run, body.scope, node) ||
    (node.kind === "identifier" &&
      body.scope.find(run.textOf(node)) === undefined &&
      CORE_CLASSES.has(run.textOf(node)))
  );
}
