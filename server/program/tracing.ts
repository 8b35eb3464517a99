/** Keeps an expression as the sketch wrote it, with a numbered cell for the value of each of its parts. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { isInput } from "./core-functions.js";
import type { Expression } from "./ir.js";
import type { Lowering, WrittenNode } from "./lowering.js";
import { isPlace, namedPlace, rememberPlace } from "./places.js";

/** Lowers without keeping: for operands that must stay places. */
export function untraced<T>(run: Lowering, work: () => T): T {
  const outer = run.tracing;
  run.tracing = null;
  const result = work();
  run.tracing = outer;
  return result;
}

/** Called for every lowered node while tracing is on; `mark` is how many nodes stood on the stack before its operands. */
export function traced(run: Lowering, node: SyntaxNode, lowered: Expression, mark: number): Expression {
  const stack = run.tracing!;
  const operands = stack.splice(mark);
  if (node.kind === "parenthesized_expression" && operands.length === 1) {
    stack.push({ ...operands[0]!, parenthesised: true });
    return lowered;
  }
  const trace = run.traces++;
  const kind = kindOf(node, lowered);
  stack.push({
    kind,
    text: textOf(run, node, kind, lowered),
    start: node.start,
    end: node.end,
    parenthesised: false,
    operands,
    trace,
    type: lowered.type,
    nature: natureOf(lowered, operands),
  });
  if (lowered.type.kind !== "integer") return lowered;
  const value: Expression = isPlace(lowered)
    ? { op: "load", place: lowered, type: lowered.type, start: lowered.start, end: lowered.end }
    : lowered;
  const kept: Expression = {
    op: "traced",
    trace,
    operand: value,
    type: value.type,
    start: value.start,
    end: value.end,
  };
  rememberPlace(kept, () => namedPlace(lowered));
  return kept;
}

function kindOf(node: SyntaxNode, lowered: Expression): WrittenNode["kind"] {
  switch (node.kind) {
    case "number_literal":
    case "char_literal":
    case "true":
    case "false":
      return "literal";
    case "identifier":
    case "qualified_identifier":
      return lowered.op === "register" ? "register" : "name";
    case "unary_expression":
      return "unary";
    case "binary_expression":
      return "binary";
    case "conditional_expression":
      return "conditional";
    case "call_expression":
      return lowered.op === "convert" ? "cast" : "call";
    case "cast_expression":
      return "cast";
    default:
      return "other";
  }
}

function textOf(run: Lowering, node: SyntaxNode, kind: WrittenNode["kind"], lowered: Expression): string {
  switch (kind) {
    case "unary":
    case "binary":
      return child(node, "operator")?.kind ?? "";
    case "call":
      return run.textOf(child(node, "function") ?? node);
    case "register":
      return lowered.op === "register" ? lowered.name : run.textOf(node);
    case "cast":
    case "conditional":
    case "other":
      return "";
    default:
      return run.textOf(node);
  }
}

function natureOf(lowered: Expression, operands: readonly WrittenNode[]): WrittenNode["nature"] {
  if (operands.some((operand) => operand.nature === "input")) return "input";
  if (lowered.op === "core") return isInput(lowered.name) ? "input" : "computed";
  if (operands.length > 0) return operands.every((operand) => operand.nature === "constant") ? "constant" : "computed";
  if (lowered.op === "variable") return lowered.variable.constant ? "constant" : "computed";
  if (lowered.op === "integer" || lowered.op === "real") return "constant";
  return "computed";
}
