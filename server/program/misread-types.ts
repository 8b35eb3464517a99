/**
 * Between the marks of a template's arguments the parser takes `level`, `level(n)` and `table[i]` for types. Where the
 * list is none (see misread-templates.ts), they are the expressions they look like.
 */
import { child, type SyntaxNode } from "../parse/syntax.js";

/** The expression that a type's description stands for; null where it can only be a type. */
export function typeReadAsExpression(node: SyntaxNode): SyntaxNode | null {
  const type = child(node, "type");
  const named = type === undefined ? null : nameOf(type);
  if (named === null) return null;
  const declarator = child(node, "declarator");
  return declarator === undefined ? { ...named, field: null } : applied(named, declarator);
}

function nameOf(type: SyntaxNode): SyntaxNode | null {
  if (type.kind === "type_identifier") return { ...type, kind: "identifier", field: null };
  if (type.kind === "primitive_type") return { ...type, field: null };
  if (type.kind !== "qualified_identifier") return null;
  const children = type.children.map((part) => {
    if (part.field !== "name") return part;
    const name = nameOf(part);
    return name === null ? part : { ...name, field: "name" };
  });
  return { ...type, field: null, children };
}

/** What the declarator does to the name before it: a call, an index, a product, a bitwise or logical and. */
function applied(base: SyntaxNode, declarator: SyntaxNode): SyntaxNode | null {
  const inner = child(declarator, "declarator");
  switch (declarator.kind) {
    case "abstract_function_declarator":
    case "abstract_array_declarator": {
      const before = inner === undefined ? base : applied(base, inner);
      return before === null ? null : suffixed(before, declarator);
    }
    // `a * (b)`: a pointer to a function that takes a `b`.
    case "abstract_pointer_declarator":
    case "abstract_reference_declarator": {
      const operator = declarator.children.find(({ kind }) => kind === "*" || kind === "&" || kind === "&&");
      const right = inner ?? declarator.children.find(({ named }) => named);
      const operand = operator === undefined || right === undefined ? null : bracketed(right);
      return operator === undefined || operand === null ? null : binary(base, operator, operand);
    }
    case "pointer_declarator":
    case "reference_declarator": {
      const operator = declarator.children.find(({ kind }) => kind === "*" || kind === "&" || kind === "&&");
      const right = declarator.children.find(({ named }) => named);
      if (operator === undefined || right?.kind !== "identifier") return null;
      return binary(base, operator, right);
    }
    default:
      return null;
  }
}

function binary(left: SyntaxNode, operator: SyntaxNode, right: SyntaxNode): SyntaxNode {
  const children = [
    { ...left, field: "left" },
    { ...operator, field: "operator" },
    { ...right, field: "right" },
  ];
  return { ...expression("binary_expression", left.start, right.end), children };
}

/** One parameter alone in its brackets is an expression in brackets. */
function bracketed(declarator: SyntaxNode): SyntaxNode | null {
  if (declarator.kind === "abstract_parenthesized_declarator") {
    const [only, ...more] = declarator.children.filter(({ named }) => named);
    const inside = only === undefined || more.length > 0 ? null : bracketed(only);
    return inside === null ? null : inBrackets(declarator, inside);
  }
  if (declarator.kind !== "abstract_function_declarator") return null;
  const list = child(declarator, "parameters");
  const [only, ...more] = list?.children.filter(({ named }) => named) ?? [];
  const value = list === undefined || only === undefined || more.length > 0 ? null : typeReadAsExpression(only);
  if (list === undefined || value === null) return null;
  const before = child(declarator, "declarator");
  return before === undefined ? inBrackets(list, value) : conversion(before, inBrackets(list, value));
}

/** `(long)(b)`: the brackets before hold the type of a conversion. */
function conversion(before: SyntaxNode, value: SyntaxNode): SyntaxNode | null {
  if (before.kind !== "abstract_function_declarator" || child(before, "declarator") !== undefined) return null;
  const [only, ...more] = child(before, "parameters")?.children.filter(({ named }) => named) ?? [];
  const type = only === undefined || more.length > 0 ? undefined : child(only, "type");
  if (only === undefined || type === undefined || child(only, "declarator") !== undefined) return null;
  const described = expression("type_descriptor", type.start, type.end);
  const children = [
    { ...described, field: "type", children: [type] },
    { ...value, field: "value" },
  ];
  return { ...expression("cast_expression", before.start, value.end), children };
}

function inBrackets(at: SyntaxNode, inside: SyntaxNode): SyntaxNode {
  return { ...expression("parenthesized_expression", at.start, at.end), children: [{ ...inside, field: null }] };
}

function suffixed(base: SyntaxNode, declarator: SyntaxNode): SyntaxNode | null {
  const whole = { start: base.start, end: declarator.end };
  if (declarator.kind === "abstract_array_declarator") {
    const size = child(declarator, "size");
    if (size === undefined) return null;
    const indices = expression("subscript_argument_list", size.start, size.end);
    const children = [
      { ...base, field: "argument" },
      { ...indices, field: "indices", children: [{ ...size, field: null }] },
    ];
    return { ...expression("subscript_expression", whole.start, whole.end), children };
  }
  const list = child(declarator, "parameters");
  if (list === undefined) return null;
  const given: SyntaxNode[] = [];
  for (const part of list.children) {
    const argument = part.named ? typeReadAsExpression(part) : part;
    if (argument === null) return null;
    given.push(argument);
  }
  const children = [
    { ...base, field: "function" },
    { ...list, kind: "argument_list", field: "arguments", children: given },
  ];
  return { ...expression("call_expression", whole.start, whole.end), children };
}

function expression(kind: string, start: number, end: number): SyntaxNode {
  return { kind, start, end, field: null, named: true, children: [] };
}
