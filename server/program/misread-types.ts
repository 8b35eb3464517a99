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
    case "pointer_declarator":
    case "reference_declarator": {
      const operator = declarator.children.find(({ kind }) => kind === "*" || kind === "&" || kind === "&&");
      const right = declarator.children.find(({ named }) => named);
      if (operator === undefined || right?.kind !== "identifier") return null;
      const children = [
        { ...base, field: "left" },
        { ...operator, field: "operator" },
        { ...right, field: "right" },
      ];
      return { ...expression("binary_expression", base.start, right.end), children };
    }
    default:
      return null;
  }
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
