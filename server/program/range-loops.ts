/** `for (auto x : range)`: counts through an array, walks from begin() to end() of an object, or goes round unknown things. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { arithmetic } from "./arithmetic.js";
import { convertTo, referenceTo, rvalue } from "./conversions.js";
import { readDeclarator } from "./declarators.js";
import { withCleanup } from "./destruction.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Place, Statement } from "./ir.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { callMethod } from "./method-calls.js";
import { operatorCall } from "./operators.js";
import { isPlace, placeOf } from "./places.js";
import { Scope } from "./scope.js";
import { anything } from "./stand-ins.js";
import { lowerStatement } from "./statements.js";
import { readSpecifiers } from "./type-syntax.js";
import { BOOL, decayed, INT16, type Type } from "./types.js";

/** How a range is gone through: what is asked before each round, the element then, and the step behind it. */
interface Walk {
  readonly test: () => Expression;
  readonly element: () => Expression;
  readonly step: () => void;
}

export function lowerRange(run: Lowering, body: Body, node: SyntaxNode): void {
  const right = child(node, "right");
  const declarator = child(node, "declarator");
  const inner = child(node, "body");
  if (right === undefined || declarator === undefined || inner === undefined) return;
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  const range = right.kind === "initializer_list" ? listAsArray(run, body, right) : lowerExpression(run, body, right);
  const walk = walkArray(run, body, range, node) ?? walkObject(run, body, range, node) ?? walkUnknown(node);
  const [test, before] = aside(body, walk.test);
  const [, statements] = aside(body, () => {
    declareElement(run, body, node, declarator, walk.element());
    withCleanup(run, body, "loop", () => lowerStatement(run, body, inner));
  });
  const [, step] = aside(body, walk.step);
  const round: Statement = { op: "block", body: statements };
  const { start, end } = node;
  body.out.push({
    op: "loop",
    before,
    condition: test,
    body: round,
    step,
    bodyFirst: false,
    start,
    end,
    head: right.end,
  });
  body.scope = outer;
}

function listAsArray(run: Lowering, body: Body, list: SyntaxNode): Place {
  const { start, end } = list;
  const items = list.children.filter((part) => part.named).map((item) => lowerExpression(run, body, item));
  const element = items[0] === undefined ? INT16 : decayed(items[0].type);
  const array = run.temporary(body, { kind: "array", of: element, length: items.length }, start);
  const place = placeOf(array, start, end);
  body.out.push({ op: "declare", variable: array, zero: false, start });
  for (const [index, item] of items.entries()) {
    const at: Expression = { op: "integer", value: index, type: INT16, start, end };
    const target: Place = { op: "index", base: place, index: at, type: element, start, end };
    if (element.kind === "record" && isPlace(item)) body.out.push({ op: "copy", target, source: item, start });
    else body.out.push({ op: "initialise", target, value: convertTo(run, body, item, element, list), start, end });
  }
  return place;
}

function declareElement(run: Lowering, body: Body, node: SyntaxNode, declarator: SyntaxNode, item: Expression): void {
  const { start, end } = node;
  const specifiers = readSpecifiers(run, body.scope, node);
  const declared = readDeclarator(run, body.scope, declarator, specifiers.type ?? decayed(item.type));
  const { type } = declared;
  const variable = run.local(body, declared.name === null ? "" : run.textOf(declared.name), type, declarator.start);
  body.scope.declare(variable.name, { kind: "variable", variable });
  body.out.push({ op: "declare", variable, zero: false, start });
  if (type.kind === "reference") {
    const pointer: Type = { kind: "pointer", to: type.to };
    const target: Place = { op: "variable", variable, type: pointer, start, end };
    body.out.push({ op: "initialise", target, value: referenceTo(run, body, item, type.to, node), start, end });
  } else if (type.kind === "record" && isPlace(item)) {
    body.out.push({ op: "copy", target: placeOf(variable, start, end), source: item, start });
  } else {
    const value = convertTo(run, body, item, type, node);
    body.out.push({ op: "initialise", target: placeOf(variable, start, end), value, start, end });
  }
}

function walkArray(run: Lowering, body: Body, range: Expression, node: SyntaxNode): Walk | null {
  if (!isPlace(range) || range.type.kind !== "array" || range.type.length === null) return null;
  const { start, end } = node;
  const { of, length } = range.type;
  const counter = run.temporary(body, INT16, start);
  const place = placeOf(counter, start, end);
  const load: Expression = { op: "load", place, type: INT16, start, end };
  const number = (value: number): Expression => ({ op: "integer", value, type: INT16, start, end });
  body.out.push({ op: "declare", variable: counter, zero: true, start });
  return {
    test: () => ({ op: "compare", operator: "<", left: load, right: number(length), type: INT16, start, end }),
    element: () => ({ op: "index", base: range, index: load, type: of, start, end }),
    step: () => {
      const value: Expression = { op: "binary", operator: "+", left: load, right: number(1), type: INT16, start, end };
      body.out.push({ op: "initialise", target: place, value, start, end });
    },
  };
}

/** By the object's own begin() and end(): pointers, or iterators with operators of their own. */
function walkObject(run: Lowering, body: Body, range: Expression, node: SyntaxNode): Walk | null {
  if (!isPlace(range) || range.type.kind !== "record") return null;
  const first = callMethod(run, body, range, "begin", node);
  const last = callMethod(run, body, range, "end", node);
  if (first === null || last === null) return null;
  const at = held(run, body, first, node);
  const over = held(run, body, last, node);
  const now = (): Expression => rvalue(at);
  return {
    test: () => operatorCall(run, body, "operator!=", at, [over], node) ?? arithmetic(run, body, "!=", at, over, node),
    element: () => {
      const own = operatorCall(run, body, "operator*", at, [], node);
      if (own !== null) return own;
      const pointer = now();
      const to: Type = pointer.type.kind === "pointer" ? pointer.type.to : INT16;
      return { op: "dereference", pointer, type: to, start: node.start, end: node.end };
    },
    step: () => {
      if (operatorCall(run, body, "operator++", at, [], node) !== null || !isPlace(at)) return;
      const one: Expression = { op: "integer", value: 1, type: INT16, start: node.start, end: node.end };
      const value = arithmetic(run, body, "+", now(), one, node);
      body.out.push({ op: "initialise", target: at, value, start: node.start, end: node.end });
    },
  };
}

function held(run: Lowering, body: Body, value: Expression, node: SyntaxNode): Place {
  const { start, end } = node;
  const place = placeOf(run.temporary(body, decayed(value.type), start), start, end);
  if (value.type.kind === "record" && isPlace(value))
    body.out.push({ op: "copy", target: place, source: value, start });
  else body.out.push({ op: "initialise", target: place, value: rvalue(value), start, end });
  return place;
}

/** Elements and number are not known: any number of rounds over anything. */
function walkUnknown(node: SyntaxNode): Walk {
  const element: Type = { kind: "opaque", name: "?" };
  return { test: () => anything(node, BOOL), element: () => anything(node, element), step: () => {} };
}
