/** Statements, in the order in which they run; loops and switches keep their shape. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { type CaseRange, caseRange, firstOfRange } from "./case-ranges.js";
import { constantOf } from "./constant.js";
import { declareAlias, declareStaticLocal, declareVariable } from "./declarations.js";
import { type Cleanup, leave, leavesObjects, withCleanup } from "./destruction.js";
import { aside, condition, convertTo, lowerExpression, rvalue, unknown } from "./expressions.js";
import { heldValue } from "./extensions.js";
import { flatJump, hasInnerLabels, lowerFlatSwitch } from "./flat-switch.js";
import { addFunction, settleReturn } from "./functions.js";
import type { Expression, Statement } from "./ir.js";
import { listAsRecord } from "./lists.js";
import { type Body, isPlace, type Lowering, placeOf } from "./lowering.js";
import { callReadAsDeclaration, declarationReadAsAssignment } from "./misread.js";
import { lowerRange } from "./range-loops.js";
import { Scope } from "./scope.js";
import { readSpecifiers, readType } from "./type-syntax.js";
import { decayed } from "./types.js";
import { declareNamespaceAlias, declareUsing } from "./using.js";

/** The statements of a compound, in a scope of their own, appended to `body.out`. */
export function lowerBlock(run: Lowering, body: Body, node: SyntaxNode): void {
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  withCleanup(run, body, "block", () => {
    for (const part of node.children) lowerStatement(run, body, part);
  });
  body.scope = outer;
}

/** One statement as a single IR statement. */
function alone(run: Lowering, body: Body, node: SyntaxNode, kind: Cleanup["kind"] = "block"): Statement {
  const outer = body.scope;
  body.scope = new Scope(outer, "block");
  const [, statements] = aside(body, () => withCleanup(run, body, kind, () => lowerStatement(run, body, node)));
  body.scope = outer;
  return statements.length === 1 ? statements[0]! : { op: "block", body: statements };
}

export function lowerStatement(run: Lowering, body: Body, node: SyntaxNode): void {
  const { start, end } = node;
  switch (node.kind) {
    case "compound_statement":
      lowerBlock(run, body, node);
      return;
    case "expression_statement": {
      const declaration = declarationReadAsAssignment(node);
      if (declaration !== null) {
        lowerDeclaration(run, body, declaration);
        return;
      }
      const inner = node.children.find((part) => part.named);
      if (inner !== undefined) lowerForEffect(run, body, inner);
      return;
    }
    case "declaration":
      lowerDeclaration(run, body, node);
      return;
    case "if_statement":
      lowerIf(run, body, node);
      return;
    case "while_statement":
    case "do_statement":
      lowerWhile(run, body, node);
      return;
    case "for_statement":
      lowerFor(run, body, node);
      return;
    case "for_range_loop":
      lowerRange(run, body, node);
      return;
    case "switch_statement":
      lowerSwitch(run, body, node);
      return;
    case "return_statement":
      lowerReturn(run, body, node);
      return;
    case "break_statement":
      leave(run, body, "break");
      body.out.push({ op: "break", start });
      return;
    case "continue_statement":
      leave(run, body, "continue");
      body.out.push({ op: "continue", start });
      return;
    case "flat_jump":
      body.out.push({ op: "goto", name: flatJump(node) ?? "", start });
      return;
    case "goto_statement": {
      const label = child(node, "label");
      body.out.push({ op: "goto", name: label === undefined ? "" : run.textOf(label), start });
      return;
    }
    case "labeled_statement": {
      const label = child(node, "label");
      if (label !== undefined) {
        body.labels.add(run.textOf(label));
        body.out.push({ op: "label", name: run.textOf(label) });
      }
      for (const part of node.children) if (part.named && part !== label) lowerStatement(run, body, part);
      return;
    }
    case "case_statement":
      // A case outside of any switch that was understood: its statements may run.
      for (const part of node.children) if (part.named && part.field !== "value") lowerStatement(run, body, part);
      return;
    case "type_definition":
    case "alias_declaration":
      declareAlias(run, body.scope, node);
      return;
    case "struct_specifier":
    case "class_specifier":
    case "union_specifier":
    case "enum_specifier":
      readType(run, body.scope, node);
      return;
    case "function_definition":
      addFunction(run, body.scope, node, null);
      return;
    case "try_statement": {
      const inner = child(node, "body");
      if (inner !== undefined) lowerStatement(run, body, inner);
      return;
    }
    case "using_declaration":
      declareUsing(run, body.scope, node);
      return;
    case "namespace_alias_definition":
      declareNamespaceAlias(run, body.scope, node);
      return;
    case "static_assert_declaration":
    case "empty_statement":
    case "attributed_statement":
    case "comment":
      return;
    case "else_clause":
      for (const part of node.children) if (part.named) lowerStatement(run, body, part);
      return;
    case "ERROR":
      lowerBroken(run, body, node);
      return;
    default:
      if (!node.named) return;
      if (node.kind.endsWith("_expression") || node.kind === "identifier") {
        lowerForEffect(run, body, node);
        return;
      }
      run.gap(node, `${node.kind.replaceAll("_", " ")} not followed`);
      body.out.push({ op: "gap", why: `${node.kind.replaceAll("_", " ")} not followed`, havoc: true, start, end });
  }
}

/** Text the parser could make nothing of: whatever it names may have changed. */
function lowerBroken(run: Lowering, body: Body, node: SyntaxNode): void {
  const operands: Expression[] = [];
  const walk = (part: SyntaxNode): void => {
    if (part.kind === "identifier") {
      const known = body.scope.find(run.textOf(part));
      if (known?.kind === "variable" || run.registers.has(run.textOf(part)))
        operands.push(lowerExpression(run, body, part));
    }
    for (const inner of part.children) walk(inner);
  };
  walk(node);
  run.gap(node, "text not understood");
  for (const operand of operands) {
    if (!isPlace(operand) || operand.type.kind !== "integer") continue;
    const value: Expression = {
      op: "convert",
      operand: unknown(run, node, "text not understood"),
      type: operand.type,
      start: node.start,
      end: node.end,
    };
    body.out.push({ op: "initialise", target: operand, value, start: node.start, end: node.end });
  }
}

function lowerForEffect(run: Lowering, body: Body, node: SyntaxNode): void {
  if (node.kind === "comma_expression") {
    for (const part of [child(node, "left"), child(node, "right")])
      if (part !== undefined) lowerForEffect(run, body, part);
    return;
  }
  // A condition used for its effects alone is an if.
  if (node.kind === "parenthesized_expression") {
    const inner = node.children.find((part) => part.named);
    if (inner !== undefined) {
      lowerForEffect(run, body, inner);
      return;
    }
  }
  if (node.kind === "conditional_expression" && child(node, "consequence") !== undefined) {
    const test = child(node, "condition")!;
    const [otherwiseNode, thenNode] = [child(node, "alternative"), child(node, "consequence")];
    const value = condition(run, body, lowerExpression(run, body, test), test);
    const arm = (part: SyntaxNode | undefined): Statement => {
      const [, statements] = aside(body, () => {
        if (part !== undefined) lowerForEffect(run, body, part);
      });
      return { op: "block", body: statements };
    };
    body.out.push({
      op: "if",
      condition: value,
      yes: arm(thenNode),
      no: arm(otherwiseNode),
      start: test.start,
      end: test.end,
    });
    return;
  }
  const choice = node.kind === "assignment_expression" ? conditionalTarget(node) : null;
  if (choice !== null) {
    lowerForEffect(run, body, choice);
    return;
  }
  const expression = lowerExpression(run, body, node);
  if (expression.op === "integer" || expression.op === "variable") return;
  if (expression.op === "load" && expression.place.op === "variable") return;
  body.out.push({ op: "expression", expression: rvalue(run, body, expression), start: node.start, end: node.end });
}

/** `(c ? a : b) = v` as `c ? a = v : b = v`; null for other assignments. */
function conditionalTarget(node: SyntaxNode): SyntaxNode | null {
  let left = child(node, "left");
  while (left?.kind === "parenthesized_expression") left = left.children.find((part) => part.named);
  if (left?.kind !== "conditional_expression" || child(left, "consequence") === undefined) return null;
  const children = left.children.map((part): SyntaxNode => {
    if (part.field !== "consequence" && part.field !== "alternative") return part;
    const own = node.children.map((each): SyntaxNode => (each.field === "left" ? { ...part, field: "left" } : each));
    return { ...node, field: part.field, children: own };
  });
  return { ...left, start: node.start, end: node.end, children };
}

function lowerDeclaration(run: Lowering, body: Body, node: SyntaxNode): void {
  const type = child(node, "type");
  if (type?.kind === "type_identifier" && body.scope.find(run.textOf(type))?.kind === "variable") {
    const call = callReadAsDeclaration(node);
    if (call !== null) {
      lowerForEffect(run, body, call);
      return;
    }
  }
  const specifiers = readSpecifiers(run, body.scope, node);
  for (const part of node.children) {
    if (part.field !== "declarator") continue;
    if (specifiers.isStatic) {
      declareStaticLocal(run, body, node, part, specifiers);
      continue;
    }
    if (specifiers.isExtern) {
      declareVariable(run, run.global, node, part, specifiers, body, "global");
      continue;
    }
    const made = declareVariable(run, body.scope, node, part, specifiers, body, "local");
    if (made === "function") addFunction(run, run.global, node, null);
  }
}

/** The condition in an if, while or switch head; a declaration there lives in the head's scope. */
function lowerHead(run: Lowering, body: Body, clause: SyntaxNode): Expression {
  if (clause.kind !== "condition_clause" && clause.kind !== "parenthesized_expression") {
    return condition(run, body, lowerExpression(run, body, clause), clause);
  }
  const initialiser = child(clause, "initializer");
  if (initialiser !== undefined) for (const part of initialiser.children) lowerStatement(run, body, part);
  const value = child(clause, "value") ?? clause.children.find((part) => part.named && part !== initialiser);
  if (value === undefined) return unknown(run, clause, "condition missing");
  if (value.kind === "declaration") {
    const specifiers = readSpecifiers(run, body.scope, value);
    const declarator = child(value, "declarator");
    const made =
      declarator === undefined ? null : declareVariable(run, body.scope, value, declarator, specifiers, body, "local");
    if (made === null || made === "function") return unknown(run, value, "condition not understood");
    return condition(run, body, placeOf(made, value.start, value.end), value);
  }
  return condition(run, body, lowerExpression(run, body, value), value);
}

function lowerIf(run: Lowering, body: Body, node: SyntaxNode): void {
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

function lowerWhile(run: Lowering, body: Body, node: SyntaxNode): void {
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

function lowerFor(run: Lowering, body: Body, node: SyntaxNode): void {
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

function lowerSwitch(run: Lowering, body: Body, node: SyntaxNode): void {
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

function lowerReturn(run: Lowering, body: Body, node: SyntaxNode): void {
  const { start } = node;
  const inner = node.children.find((part) => part.named);
  if (inner === undefined) {
    if (body.returns === null) settleReturn(run, body, { kind: "void" });
    leave(run, body, "return");
    body.out.push({ op: "return", value: null, start });
    return;
  }
  if (inner.kind === "initializer_list" && body.returns?.kind === "record") {
    const value = listAsRecord(run, body, body.returns, inner);
    leave(run, body, "return");
    body.out.push({ op: "return", value, start });
    return;
  }
  const value = lowerExpression(run, body, inner);
  if (body.returns === null) settleReturn(run, body, decayed(value.type));
  const returns = body.returns ?? decayed(value.type);
  if (returns.kind === "void") {
    body.out.push({ op: "expression", expression: value, start, end: node.end });
    leave(run, body, "return");
    body.out.push({ op: "return", value: null, start });
    return;
  }
  const converted = convertTo(run, body, value, returns, inner);
  const kept = leavesObjects(body) ? heldValue(run, body, converted) : converted;
  leave(run, body, "return");
  body.out.push({ op: "return", value: kept, start });
}
