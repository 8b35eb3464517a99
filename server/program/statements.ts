/** Statements, in the order in which they run; loops and switches keep their shape. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { choiceAsIf } from "./choice-statements.js";
import { condition, convertTo, rvalue } from "./conversions.js";
import { declareNames, declareStaticLocal, declareVariable } from "./declarations.js";
import { type Cleanup, leave, leavesObjects, withCleanup } from "./destruction.js";
import { lowerExpression } from "./expressions.js";
import { heldValue } from "./extensions.js";
import { flatJump } from "./flat-switch.js";
import { addFunction, settleReturn } from "./functions.js";
import type { Expression, Statement } from "./ir.js";
import { listAsRecord } from "./lists.js";
import { lowerFor, lowerWhile } from "./loops.js";
import { aside, type Body, type Lowering } from "./lowering.js";
import { callReadAsDeclaration, declarationReadAsAssignment } from "./misread.js";
import { isPlace } from "./places.js";
import { lowerRange } from "./range-loops.js";
import { Scope } from "./scope.js";
import { lowerIf, lowerSwitch } from "./selection.js";
import { unknown } from "./stand-ins.js";
import { readSpecifiers } from "./type-syntax.js";
import { decayed } from "./types.js";

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
export function alone(run: Lowering, body: Body, node: SyntaxNode, kind: Cleanup["kind"] = "block"): Statement {
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
    case "function_definition":
      addFunction(run, body.scope, node, null);
      return;
    case "try_statement": {
      const inner = child(node, "body");
      if (inner !== undefined) lowerStatement(run, body, inner);
      return;
    }
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
      if (!node.named || declareNames(run, body.scope, node)) return;
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
      operand: unknown(node, "text not understood"),
      type: operand.type,
      start: node.start,
      end: node.end,
    };
    body.out.push({ op: "initialise", target: operand, value, start: node.start, end: node.end });
  }
}

export function lowerForEffect(run: Lowering, body: Body, node: SyntaxNode): void {
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
  const value = rvalue(expression);
  body.out.push(choiceAsIf(value) ?? { op: "expression", expression: value, start: node.start, end: node.end });
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

export function lowerDeclaration(run: Lowering, body: Body, node: SyntaxNode): void {
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
      const made = declareVariable(run, body.scope.file, node, part, specifiers, body, "global");
      if (made === "function") addFunction(run, body.scope.file, node, null);
      continue;
    }
    const made = declareVariable(run, body.scope, node, part, specifiers, body, "local");
    if (made === "function") addFunction(run, body.scope.file, node, null);
  }
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
