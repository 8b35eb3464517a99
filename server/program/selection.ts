/** `if` and `switch`, and the conditions in the heads of both and of loops. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { type CaseRange, caseRange, firstOfRange } from "./case-ranges.js";
import { constantOf } from "./constant.js";
import { condition } from "./conversions.js";
import { declareVariable } from "./declarations.js";
import { lowerExpression } from "./expressions.js";
import { hasInnerLabels, lowerFlatSwitch } from "./flat-switch.js";
import type { Expression, Statement } from "./ir.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { placeOf } from "./places.js";
import { Scope } from "./scope.js";
import { unknown } from "./stand-ins.js";
import { alone, lowerStatement } from "./statements.js";
import { readSpecifiers } from "./type-syntax.js";

/** The condition in an if, while or switch head; a declaration there lives in the head's scope. */
export function lowerHead(run: Lowering, body: Body, clause: SyntaxNode): Expression {
  if (clause.kind !== "condition_clause" && clause.kind !== "parenthesized_expression") {
    return condition(run, body, lowerExpression(run, body, clause), clause);
  }
  const initialiser = child(clause, "initializer");
  if (initialiser !== undefined) for (const part of initialiser.children) lowerStatement(run, body, part);
  const value = child(clause, "value") ?? clause.children.find((part) => part.named && part !== initialiser);
  if (value === undefined) return unknown(clause, "condition missing");
  if (value.kind === "declaration") {
    const specifiers = readSpecifiers(run, body.scope, value);
    const declarator = child(value, "declarator");
    const made =
      declarator === undefined ? null : declareVariable(run, body.scope, value, declarator, specifiers, body, "local");
    if (made === null || made === "function") return unknown(value, "condition not understood");
    return condition(run, body, placeOf(made, value.start, value.end), value);
  }
  return condition(run, body, lowerExpression(run, body, value), value);
}

export function lowerIf(run: Lowering, body: Body, node: SyntaxNode): void {
  const clause = child(node, "condition");
  const thenNode = child(node, "consequence");
  const elseNode = child(node, "alternative");
  if (clause === undefined) return;
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  const test = lowerHead(run, body, clause);
  const known = node.children.some((part) => part.kind === "constexpr") ? constantOf(test) : undefined;
  const taken: Statement =
    thenNode === undefined || known === 0 ? { op: "block", body: [] } : alone(run, body, thenNode);
  const otherwise = elseNode === undefined || (known !== undefined && known !== 0) ? null : alone(run, body, elseNode);
  body.out.push({ op: "if", condition: test, yes: taken, no: otherwise, start: clause.start, end: clause.end });
  body.scope = outer;
}

export function lowerSwitch(run: Lowering, body: Body, node: SyntaxNode): void {
  const { start, end } = node;
  const clause = child(node, "condition");
  const block = child(node, "body");
  if (clause === undefined || block === undefined) return;
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  const value = lowerHead(run, body, clause);
  if (hasInnerLabels(block)) {
    lowerFlatSwitch(run, body, value, block);
    body.scope = outer;
    return;
  }
  const cases: { values: number[] | null; body: Statement[] }[] = [];
  const ranges: CaseRange[] = [];
  let pending: number[] | null = [];
  let isDefault = false;
  body.cleanups.push({ kind: "switch", objects: [] });
  for (const part of block.children) {
    if (part.kind !== "case_statement") {
      const last = cases[cases.length - 1];
      const [, statements] = aside(body, () => lowerStatement(run, body, part));
      last?.body.push(...statements);
      continue;
    }
    const label = child(part, "value");
    if (label === undefined) isDefault = true;
    else {
      const range = caseRange(run, body, label);
      const known = range === null ? constantOf(lowerExpression(run, body, label)) : undefined;
      if (range !== null) {
        ranges.push(range);
        pending.push(range.first);
      } else if (known === undefined) run.gap(label, "case label is not known when compiled");
      else pending.push(known);
    }
    const [, statements] = aside(body, () => {
      for (const inner of part.children)
        if (inner !== label && inner.field !== "value") lowerStatement(run, body, inner);
    });
    if (statements.length === 0 && part !== block.children[block.children.length - 1] && !hasDeclarations(part))
      continue;
    // A default that shares its statements with labels takes every value: the labels need no entry of their own.
    if (isDefault && pending.length > 0) cases.push({ values: pending, body: [] });
    cases.push({ values: isDefault ? null : pending, body: statements });
    pending = [];
    isDefault = false;
  }
  body.cleanups.pop();
  if (isDefault || pending.length > 0) cases.push({ values: isDefault ? null : pending, body: [] });
  body.out.push({
    op: "switch",
    value: ranges.length === 0 ? value : firstOfRange(run, body, value, ranges),
    cases,
    start,
    end,
  });
  body.scope = outer;
}

function hasDeclarations(node: SyntaxNode): boolean {
  return node.children.some((part) => part.kind === "declaration");
}
