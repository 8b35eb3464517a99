/** Declarators: what stands around a name makes a pointer, a reference, an array or a function of its type. */
import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { lowerExpression } from "./expressions.js";
import { type Lowering, scratchBody } from "./lowering.js";
import type { Scope } from "./scope.js";
import { readSpecifiers } from "./type-syntax.js";
import type { Type } from "./types.js";

/** `int *`, `const T &`, `uint8_t (*)(int)` inside casts, sizeof, template arguments. */
export function readTypeDescriptor(run: Lowering, scope: Scope, node: SyntaxNode): Type | null {
  const specifiers = readSpecifiers(run, scope, node);
  const declarator = child(node, "declarator");
  if (specifiers.type === null) return null;
  return declarator === undefined ? specifiers.type : readDeclarator(run, scope, declarator, specifiers.type).type;
}

export interface Declarator {
  readonly name: SyntaxNode | null;
  readonly type: Type;
  /** The function declarator nearest to the name, where the name is declared as a function. */
  readonly function: SyntaxNode | null;
  readonly constant: boolean;
  readonly bitWidth: SyntaxNode | null;
}

/** Wraps `base` by the declarator: pointers, references, arrays, functions, parentheses. */
export function readDeclarator(run: Lowering, scope: Scope, node: SyntaxNode, base: Type): Declarator {
  switch (node.kind) {
    case "pointer_declarator":
    case "abstract_pointer_declarator":
    case "pointer_type_declarator": {
      const pointer: Type = { kind: "pointer", to: base };
      const inner = child(node, "declarator");
      if (inner === undefined) return { name: null, type: pointer, function: null, constant: false, bitWidth: null };
      return readDeclarator(run, scope, inner, pointer);
    }
    case "reference_declarator":
    case "abstract_reference_declarator": {
      // A reference to a reference is one (C++11 8.3.2).
      const reference: Type = base.kind === "reference" ? base : { kind: "reference", to: base };
      const inner =
        child(node, "declarator") ?? node.children.find((part) => part.named && part.kind !== "type_qualifier");
      if (inner === undefined) return { name: null, type: reference, function: null, constant: false, bitWidth: null };
      return readDeclarator(run, scope, inner, reference);
    }
    case "array_declarator":
    case "abstract_array_declarator": {
      const size = child(node, "size");
      let length: number | null = null;
      if (size !== undefined) {
        const known = constantOf(lowerExpression(run, scratchBody(run, scope), size));
        if (known === undefined) run.gap(size, "array size is not known when compiled");
        else length = known;
      }
      const array: Type = { kind: "array", of: base, length };
      const inner = child(node, "declarator");
      if (inner === undefined) return { name: null, type: array, function: null, constant: false, bitWidth: null };
      return readDeclarator(run, scope, inner, array);
    }
    case "function_declarator":
    case "abstract_function_declarator": {
      const inner = child(node, "declarator");
      const isPointer = inner !== undefined && inner.kind === "parenthesized_declarator";
      const functionType: Type = {
        kind: "function",
        returns: base,
        parameters: parameterTypes(run, scope, child(node, "parameters")),
        variadic: false,
      };
      if (inner === undefined) {
        return { name: null, type: functionType, function: node, constant: false, bitWidth: null };
      }
      const read = readDeclarator(run, scope, inner, functionType);
      return { ...read, function: read.function ?? (isPointer ? null : node) };
    }
    case "parenthesized_declarator":
    case "abstract_parenthesized_declarator":
    case "attributed_declarator": {
      const inner = node.children.find(
        (part) => part.named && part.kind !== "ms_call_modifier" && !part.kind.startsWith("attribute"),
      );
      if (inner === undefined) return { name: null, type: base, function: null, constant: false, bitWidth: null };
      return readDeclarator(run, scope, inner, base);
    }
    case "init_declarator": {
      const inner = child(node, "declarator");
      if (inner === undefined) return { name: null, type: base, function: null, constant: false, bitWidth: null };
      return readDeclarator(run, scope, inner, base);
    }
    case "variadic_declarator":
    case "optional_parameter_declaration":
      return { name: ofKind(node, "identifier") ?? null, type: base, function: null, constant: false, bitWidth: null };
    default:
      return { name: node, type: base, function: null, constant: false, bitWidth: null };
  }
}

export function parameterTypes(run: Lowering, scope: Scope, list: SyntaxNode | undefined): Type[] {
  const types: Type[] = [];
  for (const part of list?.children ?? []) {
    if (part.kind !== "parameter_declaration" && part.kind !== "optional_parameter_declaration") continue;
    const type = parameterType(run, scope, part);
    if (type.kind === "void") continue;
    types.push(type);
  }
  return types;
}

/** Arrays and functions as parameters are pointers. */
export function parameterType(run: Lowering, scope: Scope, part: SyntaxNode): Type {
  const specifiers = readSpecifiers(run, scope, part);
  const declarator = child(part, "declarator");
  const base = specifiers.type ?? { kind: "opaque", name: "auto" };
  const type = declarator === undefined ? base : readDeclarator(run, scope, declarator, base).type;
  if (type.kind === "array") return { kind: "pointer", to: type.of };
  if (type.kind === "function") return { kind: "pointer", to: type };
  return type;
}
