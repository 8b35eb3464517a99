/** Casts that the parser takes for subtractions, products and the like. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import type { Body, Lowering } from "./lowering.js";
import { typeReadAsExpression } from "./misread-types.js";
import { namesType } from "./type-syntax.js";

const PREFIXES: Readonly<Record<string, string>> = {
  "-": "unary_expression",
  "+": "unary_expression",
  "*": "pointer_expression",
  "&": "pointer_expression",
};

/**
 * `(word)-x % y` is to the parser a subtraction from `(word)`. Where the parentheses hold a type it is a cast of `-x`,
 * which binds tighter than anything that follows. Null where it is what it looks like.
 */
export function castInDisguise(
  run: Lowering,
  body: Body,
  node: SyntaxNode,
  left: SyntaxNode,
  right: SyntaxNode,
  operator: string,
): SyntaxNode | null {
  const prefix = PREFIXES[operator];
  const inner = left.kind === "parenthesized_expression" ? left.children.find((part) => part.named) : undefined;
  if (prefix === undefined || inner === undefined) return null;
  if (inner.kind !== "identifier" && inner.kind !== "qualified_identifier") return null;
  if (!namesType(run, body.scope, inner)) return null;
  const token = child(node, "operator")!;
  const castOf = (operand: SyntaxNode): SyntaxNode => {
    const argument: SyntaxNode = { ...operand, field: "argument" };
    const unary: SyntaxNode = {
      kind: prefix,
      start: token.start,
      end: operand.end,
      field: "value",
      named: true,
      children: [token, argument],
    };
    const type: SyntaxNode = { ...inner, kind: "type_identifier", field: "type" };
    const descriptor: SyntaxNode = { ...inner, kind: "type_descriptor", field: "type", children: [type] };
    return {
      kind: "cast_expression",
      start: left.start,
      end: operand.end,
      field: operand.field,
      named: true,
      children: [descriptor, unary],
    };
  };
  const replaceFirst = (tree: SyntaxNode): SyntaxNode => {
    const first = tree.kind === "binary_expression" ? child(tree, "left") : undefined;
    if (first === undefined) return castOf(tree);
    return {
      ...tree,
      start: left.start,
      children: tree.children.map((part) => (part === first ? replaceFirst(first) : part)),
    };
  };
  return { ...replaceFirst(right), field: node.field };
}

const SIGNS: ReadonlySet<string> = new Set(["+", "-", "*", "&"]);

/** `(Size<5>::value) * 2`, `(count) && ready` and `(a * (b)) - c` read as conversions: what stands in the parentheses is no type. */
export function castOfValue(
  node: SyntaxNode,
  names: { isValue(name: SyntaxNode): boolean },
): { readonly value: SyntaxNode; readonly operator: SyntaxNode; readonly operand: SyntaxNode } | null {
  const descriptor = child(node, "type");
  const name = descriptor === undefined ? undefined : child(descriptor, "type");
  const unary = child(node, "value");
  if (descriptor === undefined || name === undefined || unary === undefined) return null;
  if (name.kind !== "qualified_identifier" && name.kind !== "type_identifier") return null;
  const operator = child(unary, "operator");
  const operand = child(unary, "argument");
  if (operator === undefined || operand === undefined || !SIGNS.has(operator.kind) || !names.isValue(name)) return null;
  const inside = typeReadAsExpression(descriptor);
  if (inside === null) return null;
  // A product in the parentheses stays one operand.
  const value: SyntaxNode = { ...descriptor, kind: "parenthesized_expression", field: null, children: [inside] };
  const second = operator.kind === "&" ? child(operand, "operator") : undefined;
  const both = operand.kind === "pointer_expression" && second?.kind === "&" && second.start === operator.end;
  if (!both) return { value, operator, operand };
  const inner = child(operand, "argument");
  const and: SyntaxNode = { ...operator, kind: "&&", end: second.end };
  return inner === undefined ? null : { value, operator: and, operand: inner };
}
