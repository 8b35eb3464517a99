/**
 * Switches whose labels stand inside loops and conditions, as in coroutines made of macros: laid out flat, every label a
 * place to jump to, so that nothing of their order is lost.
 */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { condition } from "./conversions.js";
import { lowerExpression } from "./expressions.js";
import type { Expression, Statement } from "./ir.js";
import type { Body, Lowering } from "./lowering.js";
import { Scope } from "./scope.js";
import { lowerStatement } from "./statements.js";
import { BOOL } from "./types.js";

/** Statements that stand for a jump to a place of the flat layout. */
const jumps = new WeakMap<SyntaxNode, string>();

export function flatJump(node: SyntaxNode): string | undefined {
  return jumps.get(node);
}

const LOOPS = new Set(["while_statement", "do_statement", "for_statement", "for_range_loop"]);

/** Whether a label of this very switch stands deeper than directly in its block. */
export function hasInnerLabels(block: SyntaxNode): boolean {
  return block.children.some((part) =>
    part.kind === "case_statement" ? part.children.some(holdsLabel) : holdsLabel(part),
  );
}

function holdsLabel(node: SyntaxNode): boolean {
  if (node.kind === "case_statement") return true;
  if (node.kind === "switch_statement" || node.kind === "lambda_expression") return false;
  return node.children.some(holdsLabel);
}

interface Layout {
  readonly run: Lowering;
  readonly body: Body;
  readonly cases: { values: number[] | null; body: Statement[] }[];
}

interface Exits {
  readonly breakTo: string;
  readonly continueTo: string | null;
}

export function lowerFlatSwitch(run: Lowering, body: Body, value: Expression, block: SyntaxNode): void {
  const { start, end } = block;
  const over = `$${run.id()}`;
  const outer = body.out;
  const laid: Statement[] = [];
  body.out = laid;
  const layout: Layout = { run, body, cases: [] };
  for (const part of block.children) lay(layout, part, { breakTo: over, continueTo: null });
  body.out = outer;
  if (!layout.cases.some(({ values }) => values === null)) {
    layout.cases.push({ values: null, body: [{ op: "goto", name: over, start }] });
  }
  const chosen: Statement = { op: "switch", value, cases: layout.cases, start, end };
  body.out.push({ op: "block", body: [chosen, ...laid, { op: "label", name: over }] });
}

/** Appends one statement to the flat layout. */
function lay(layout: Layout, node: SyntaxNode, exits: Exits): void {
  const { run, body } = layout;
  if (node.kind === "case_statement") {
    layLabel(layout, node, exits);
    return;
  }
  if (!holdsLabel(node)) {
    lowerStatement(run, body, redirected(node, exits.breakTo, exits.continueTo));
    return;
  }
  if (node.kind === "if_statement") layIf(layout, node, exits);
  else if (LOOPS.has(node.kind)) layLoop(layout, node);
  else {
    const outer = body.scope;
    if (node.kind === "compound_statement") body.scope = new Scope(outer, "block");
    for (const part of node.children) if (part.named) lay(layout, part, exits);
    body.scope = outer;
  }
}

function layLabel(layout: Layout, node: SyntaxNode, exits: Exits): void {
  const { run, body, cases } = layout;
  const label = child(node, "value");
  const name = `$${run.id()}`;
  const jump: Statement = { op: "goto", name, start: node.start };
  if (label === undefined) cases.push({ values: null, body: [jump] });
  else {
    const known = constantOf(lowerExpression(run, body, label));
    if (known === undefined) run.gap(label, "case label is not known when compiled");
    else cases.push({ values: [known], body: [jump] });
  }
  body.out.push({ op: "label", name });
  for (const part of node.children) if (part.named && part !== label) lay(layout, part, exits);
}

function layIf(layout: Layout, node: SyntaxNode, exits: Exits): void {
  const { run, body } = layout;
  const [otherwise, over] = [`$${run.id()}`, `$${run.id()}`];
  const [yes, no] = [child(node, "consequence"), child(node, "alternative")];
  jumpUnless(layout, child(node, "condition"), otherwise);
  if (yes !== undefined) lay(layout, yes, exits);
  body.out.push({ op: "goto", name: over, start: node.end }, { op: "label", name: otherwise });
  if (no !== undefined) lay(layout, no, exits);
  body.out.push({ op: "label", name: over });
}

function layLoop(layout: Layout, node: SyntaxNode): void {
  const { run, body } = layout;
  const [top, next, over] = [`$${run.id()}`, `$${run.id()}`, `$${run.id()}`];
  const test = child(node, "condition");
  const inner = child(node, "body");
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  const initialiser = child(node, "initializer");
  if (initialiser !== undefined) {
    const wrapped: SyntaxNode = { ...initialiser, kind: "expression_statement", children: [initialiser] };
    lowerStatement(run, body, initialiser.kind === "declaration" ? initialiser : wrapped);
  }
  body.out.push({ op: "label", name: top });
  if (node.kind !== "do_statement" && test !== undefined) jumpUnless(layout, test, over);
  if (inner !== undefined) lay(layout, inner, { breakTo: over, continueTo: next });
  body.out.push({ op: "label", name: next });
  const update = child(node, "update");
  if (update !== undefined) lowerStatement(run, body, { ...update, kind: "expression_statement", children: [update] });
  if (node.kind === "do_statement" && test !== undefined) jumpUnless(layout, test, over);
  body.out.push({ op: "goto", name: top, start: node.end }, { op: "label", name: over });
  body.scope = outer;
}

function jumpUnless(layout: Layout, clause: SyntaxNode | undefined, name: string): void {
  const { run, body } = layout;
  const inner = clause === undefined ? undefined : (child(clause, "value") ?? clause);
  if (inner === undefined) return;
  const { start, end } = inner;
  const test = condition(run, body, lowerExpression(run, body, inner), inner);
  const jump: Statement = { op: "goto", name, start };
  const known = constantOf(test);
  if (known === 0) body.out.push(jump);
  else if (known === undefined) {
    const opposite: Expression = { op: "not", operand: test, type: BOOL, start, end };
    body.out.push({ op: "if", condition: opposite, yes: jump, no: null, start, end });
  }
}

/** The statement with the breaks and continues that leave the flat layout as jumps. */
function redirected(node: SyntaxNode, breakTo: string | null, continueTo: string | null): SyntaxNode {
  const target = node.kind === "break_statement" ? breakTo : node.kind === "continue_statement" ? continueTo : null;
  if (target !== null) {
    const jump: SyntaxNode = { ...node, kind: "flat_jump", children: [] };
    jumps.set(jump, target);
    return jump;
  }
  if (LOOPS.has(node.kind) || node.kind === "lambda_expression" || node.children.length === 0) return node;
  const inner = node.kind === "switch_statement" ? null : breakTo;
  if (inner === null && continueTo === null) return node;
  return { ...node, children: node.children.map((part) => redirected(part, inner, continueTo)) };
}
