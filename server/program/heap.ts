/** Objects made while the program runs: each call of `new` or `malloc` gives a further object of its place in the text. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { constructDefault, initialise, initialiserOf } from "./construction.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Place, Stretch } from "./ir.js";
import { type Body, type Lowering, scratchBody } from "./lowering.js";
import { placeOf } from "./places.js";
import { readType } from "./type-syntax.js";
import { INT16, type Type, UINT8, UINT16 } from "./types.js";

export function lowerNew(run: Lowering, body: Body, node: SyntaxNode): Expression {
  const { start, end } = node;
  const typeNode = child(node, "type");
  const type = (typeNode === undefined ? null : readType(run, body.scope, typeNode)) ?? INT16;
  const size = lengthOf(node);
  const list = child(node, "arguments");
  if (size === undefined) {
    const pointer = allocate(run, body, type, node);
    const place: Place = { op: "dereference", pointer, type, start, end };
    if (list === undefined) constructDefault(run, body, place);
    else initialise(run, body, place, initialiserOf(list), false);
    return pointer;
  }
  const length = constantOf(lowerExpression(run, scratchBody(run, body.scope), size));
  if (length === undefined) lowerExpression(run, body, size);
  const array: Type = { kind: "array", of: type, length: length ?? null };
  const pointer = allocate(run, body, array, node);
  const place: Place = { op: "dereference", pointer, type: array, start, end };
  if (list === undefined || length === undefined) constructDefault(run, body, place);
  else initialise(run, body, place, initialiserOf(list), false);
  const first: Type = { kind: "pointer", to: type };
  return { op: "convert", operand: pointer, type: first, start, end };
}

function lengthOf(node: SyntaxNode): SyntaxNode | undefined {
  const declarator = child(node, "declarator");
  return declarator === undefined ? undefined : child(declarator, "length");
}

/** `malloc(n)` and `calloc(n, size)`: bytes, whatever they are taken for later. */
export function lowerAllocation(run: Lowering, body: Body, name: string, args: readonly Expression[]): Expression {
  const sizes = args.map(constantOf);
  const node = args[0] ?? { start: 0, end: 0 };
  const length = sizes.some((size) => size === undefined)
    ? null
    : sizes.reduce<number>((product, size) => product * (size ?? 0), 1);
  const array: Type = { kind: "array", of: UINT8, length };
  const pointer = allocate(run, body, array, node);
  const { start, end } = node;
  const place: Place = { op: "dereference", pointer, type: array, start, end };
  if (name === "calloc") body.out.push({ op: "zero", target: place, start });
  return { op: "convert", operand: pointer, type: { kind: "pointer", to: UINT8 }, start, end };
}

/** A pointer, in a temporary, to an object that no earlier call has given. */
function allocate(run: Lowering, body: Body, type: Type, node: Stretch): Expression {
  const { start, end } = node;
  const object = run.variable("", type, "heap", start);
  object.addressTaken = true;
  object.relevant = true;
  const made = placeOf(run.globalVariable("", UINT16, start), start, end);
  const count: Expression = { op: "load", place: made, type: UINT16, start, end };
  const pointer: Type = { kind: "pointer", to: type };
  const result = placeOf(run.temporary(body, pointer, start), start, end);
  const self: Place = { op: "variable", variable: object, type, start, end };
  const value: Expression = {
    op: "core",
    name: "$new",
    self,
    arguments: [count],
    written: [],
    type: pointer,
    start,
    end,
  };
  const one: Expression = { op: "integer", value: 1, type: UINT16, start, end };
  const next: Expression = { op: "binary", operator: "+", left: count, right: one, type: UINT16, start, end };
  body.out.push({ op: "initialise", target: result, value, start, end });
  body.out.push({ op: "initialise", target: made, value: next, start, end });
  return { op: "load", place: result, type: pointer, start, end };
}
