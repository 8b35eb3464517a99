/** `while`, `do` and `for`: one statement, with what each round does before its condition and after its body. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { condition } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Statement } from "./ir.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { Scope } from "./scope.js";
import { lowerHead } from "./selection.js";
import { alone, lowerDeclaration, lowerForEffect } from "./statements.js";

export function lowerWhile(run: Lowering, body: Body, node: SyntaxNode): void {
  const clause = child(node, "condition");
  const inner = child(node, "body");
  const bodyFirst = node.kind === "do_statement";
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  const [test, before] = aside(body, () => (clause === undefined ? null : lowerHead(run, body, clause)));
  const statement: Statement = inner === undefined ? { op: "block", body: [] } : alone(run, body, inner, "loop");
  if (bodyFirst && test !== null && constantOf(test) === 0) {
    // do { … } while (0): the shape of macros of several statements.
    body.out.push({
      op: "loop",
      before: [],
      condition: test,
      body: statement,
      step: [],
      bodyFirst: true,
      start: node.start,
      end: node.end,
      head: clause?.end ?? node.end,
    });
  } else {
    body.out.push({
      op: "loop",
      before,
      condition: test !== null && isAlwaysTrue(test) ? null : test,
      body: statement,
      step: [],
      bodyFirst,
      start: node.start,
      end: node.end,
      head: clause?.end ?? node.start,
    });
  }
  body.scope = outer;
}

function isAlwaysTrue(test: Expression): boolean {
  const value = constantOf(test);
  return value !== undefined && value !== 0;
}

export function lowerFor(run: Lowering, body: Body, node: SyntaxNode): void {
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  const initialiser = child(node, "initializer");
  const test = child(node, "condition");
  const update = child(node, "update");
  const inner = child(node, "body");
  if (initialiser !== undefined) {
    if (initialiser.kind === "declaration") lowerDeclaration(run, body, initialiser);
    else lowerForEffect(run, body, initialiser);
  }
  const [value, before] = aside(body, () =>
    test === undefined ? null : condition(run, body, lowerExpression(run, body, test), test),
  );
  const statement: Statement = inner === undefined ? { op: "block", body: [] } : alone(run, body, inner, "loop");
  const [, step] = aside(body, () => {
    if (update !== undefined) lowerForEffect(run, body, update);
  });
  body.out.push({
    op: "loop",
    before,
    condition: value !== null && isAlwaysTrue(value) ? null : value,
    body: statement,
    step,
    bodyFirst: false,
    start: node.start,
    end: node.end,
    head: update?.end ?? test?.end ?? initialiser?.end ?? node.start,
  });
  body.scope = outer;
}
