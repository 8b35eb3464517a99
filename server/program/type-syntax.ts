/** Types as the syntax spells them: specifiers first, then declarators around a name. */
import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import { declareClass, declareEnum, instantiateClass } from "./classes.js";
import { constantOf } from "./constant.js";
import { lowerExpression } from "./expressions.js";
import type { Body, Lowering } from "./lowering.js";
import type { Meaning, Scope } from "./scope.js";
import { bindTemplate } from "./template-binding.js";
import {
  CHAR,
  FLOAT,
  INT8,
  INT16,
  INT32,
  INT64,
  NAMED_TYPES,
  type Type,
  UINT8,
  UINT16,
  UINT32,
  UINT64,
  VOID,
} from "./types.js";

export interface Specifiers {
  /** Null where the type is `auto` and has to come from the initialiser. */
  readonly type: Type | null;
  readonly constant: boolean;
  readonly volatile: boolean;
  readonly isStatic: boolean;
  readonly isExtern: boolean;
  readonly isTypedef: boolean;
  readonly virtual: boolean;
  readonly constexpr: boolean;
}

/** Reads the specifiers of a declaration, parameter, field or type descriptor. */
export function readSpecifiers(run: Lowering, scope: Scope, node: SyntaxNode): Specifiers {
  let constant = false;
  let volatile = false;
  let isStatic = false;
  let isExtern = false;
  let isTypedef = false;
  let virtual = false;
  let constexpr = false;
  let typeNode: SyntaxNode | undefined;
  for (const part of node.children) {
    switch (part.kind) {
      case "type_qualifier": {
        const word = run.textOf(part);
        if (word === "const") constant = true;
        else if (word === "volatile") volatile = true;
        else if (word === "constexpr") {
          constexpr = true;
          constant = true;
        }
        break;
      }
      case "storage_class_specifier": {
        const word = run.textOf(part);
        if (word === "static") isStatic = true;
        else if (word === "extern") isExtern = true;
        break;
      }
      case "typedef":
        isTypedef = true;
        break;
      case "virtual":
        virtual = true;
        break;
      case "virtual_function_specifier":
        virtual = true;
        break;
      default:
    }
    if (part.field === "type") typeNode = part;
  }
  const type = typeNode === undefined ? INT16 : readType(run, scope, typeNode);
  return { type, constant, volatile, isStatic, isExtern, isTypedef, virtual, constexpr };
}

/** The type a type specifier names; null for `auto`. */
export function readType(run: Lowering, scope: Scope, node: SyntaxNode): Type | null {
  switch (node.kind) {
    case "primitive_type":
    case "type_identifier":
    case "namespace_identifier":
    case "identifier":
    case "qualified_identifier":
    case "template_type":
      return namedType(run, scope, node);
    case "sized_type_specifier":
      return sizedType(run, scope, node);
    case "placeholder_type_specifier":
    case "auto":
      return null;
    case "decltype": {
      const inner = node.children.find((part) => part.named);
      if (inner === undefined || inner.kind === "auto") return null;
      return typeOfExpression(run, scope, inner);
    }
    case "struct_specifier":
    case "class_specifier":
    case "union_specifier":
      return declareClass(run, scope, node);
    case "enum_specifier":
      return declareEnum(run, scope, node);
    case "type_descriptor":
      return readTypeDescriptor(run, scope, node);
    case "dependent_type": {
      const inner = node.children.find((part) => part.named);
      return inner === undefined ? { kind: "opaque", name: run.textOf(node) } : readType(run, scope, inner);
    }
    default:
      return { kind: "opaque", name: run.textOf(node) };
  }
}

function typeOfExpression(run: Lowering, scope: Scope, node: SyntaxNode): Type {
  return lowerExpression(run, scratchBody(run, scope), node).type;
}

/** A body whose statements go nowhere: for types and constants. */
export function scratchBody(run: Lowering, scope: Scope): Body {
  return {
    code: {
      id: run.id(),
      name: "",
      returns: VOID,
      parameters: [],
      variadic: false,
      self: null,
      body: null,
      locals: [],
      start: 0,
      end: 0,
      interrupt: null,
      result: null,
    },
    scope,
    out: [],
    returns: null,
    labels: new Set(),
    self: null,
    record: null,
    cleanups: [],
  };
}

function sizedType(run: Lowering, scope: Scope, node: SyntaxNode): Type {
  let unsigned = false;
  let signed = false;
  let longs = 0;
  let short = false;
  let base: Type | null = null;
  for (const part of node.children) {
    switch (part.kind) {
      case "unsigned":
        unsigned = true;
        break;
      case "signed":
        signed = true;
        break;
      case "long":
        longs++;
        break;
      case "short":
        short = true;
        break;
      default:
        if (part.field === "type" || part.named) base = readType(run, scope, part);
    }
  }
  if (base?.kind === "float") return FLOAT;
  if (base?.kind === "integer" && base.integer.bits === 8) return unsigned ? UINT8 : signed ? INT8 : CHAR;
  if (longs >= 2) return unsigned ? UINT64 : INT64;
  if (longs === 1) return unsigned ? UINT32 : INT32;
  if (short) return unsigned ? UINT16 : INT16;
  if (base?.kind === "integer" && base.integer.bits > 16) return base;
  return unsigned ? UINT16 : INT16;
}

function namedType(run: Lowering, scope: Scope, node: SyntaxNode): Type | null {
  if (node.kind === "qualified_identifier") {
    const meaning = findQualified(run, scope, node);
    if (meaning?.kind === "type") return meaning.type;
    if (meaning === undefined) {
      const last = child(node, "name");
      if (last !== undefined) return namedType(run, scope, last);
    }
    return { kind: "opaque", name: run.textOf(node) };
  }
  if (node.kind === "template_type") {
    const name = child(node, "name");
    const found = name === undefined ? undefined : scope.findTemplate(run.textOf(name));
    if (found?.kind === "class template") return instantiateClass(run, scope, found, child(node, "arguments"));
    if (found?.kind === "alias template") {
      const inner = bindTemplate(run, scope, found.scope, child(found.node, "parameters"), child(node, "arguments"));
      return readType(run, inner.scope, found.body);
    }
    return { kind: "opaque", name: run.textOf(node) };
  }
  const name = run.textOf(node);
  if (name === "auto") return null;
  const meaning = scope.find(name);
  if (meaning?.kind === "type") return meaning.type;
  if (meaning === undefined) {
    const known = NAMED_TYPES.get(name);
    if (known !== undefined) return known;
  }
  return { kind: "opaque", name };
}

/** True where the text names a type here, as opposed to a variable or function. */
export function namesType(run: Lowering, scope: Scope, node: SyntaxNode): boolean {
  if (node.kind === "primitive_type" || node.kind === "sized_type_specifier") return true;
  if (node.kind === "qualified_identifier") return findQualified(run, scope, node)?.kind === "type";
  if (node.kind === "template_type" || node.kind === "template_function") {
    const name = child(node, "name");
    return name !== undefined && scope.findTemplate(run.textOf(name))?.kind === "class template";
  }
  const name = run.textOf(node);
  const meaning = scope.find(name);
  if (meaning !== undefined) return meaning.kind === "type";
  return NAMED_TYPES.has(name);
}

/** What `A::B::c` stands for. */
export function findQualified(run: Lowering, scope: Scope, node: SyntaxNode): Meaning | undefined {
  let inside: Scope | null = null;
  let current: SyntaxNode | undefined = node;
  while (current !== undefined && current.kind === "qualified_identifier") {
    const scopeNode = child(current, "scope");
    const name = child(current, "name");
    if (scopeNode === undefined) {
      inside = run.global;
    } else {
      const meaning: Meaning | undefined =
        scopeNode.kind === "template_type"
          ? asTypeMeaning(namedType(run, inside ?? scope, scopeNode))
          : inside === null
            ? scope.find(run.textOf(scopeNode))
            : (inside as Scope).own(run.textOf(scopeNode));
      if (meaning?.kind === "namespace") inside = meaning.scope;
      else if (meaning?.kind === "type") {
        const next = scopeOfType(run, meaning.type);
        if (next === null) return undefined;
        inside = next;
      } else return undefined;
    }
    current = name;
  }
  if (current === undefined || inside === null) return undefined;
  if (current.kind === "template_type" || current.kind === "template_function") {
    const name = child(current, "name");
    return name === undefined ? undefined : inside.own(run.textOf(name));
  }
  return inside.own(run.textOf(current));
}

function asTypeMeaning(type: Type | null): Meaning | undefined {
  return type === null ? undefined : { kind: "type", type };
}

const enumScopes = new WeakMap<object, Scope>();

/** Scoped enumerations keep their names to themselves. */
export function rememberEnumScope(type: Type, scope: Scope): void {
  enumScopes.set(type, scope);
}

export function scopeOfType(run: Lowering, type: Type): Scope | null {
  if (type.kind === "record") return run.records.get(type.record)?.scope ?? null;
  return enumScopes.get(type) ?? null;
}

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
      const reference: Type = { kind: "reference", to: base };
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

/** One text per distinct type, for instance tables. */
export function keyOf(type: Type): string {
  switch (type.kind) {
    case "integer":
      return `${type.integer.signed ? "s" : "u"}${type.integer.bits}${type.bool ? "b" : ""}${type.name === "char" ? "c" : ""}`;
    case "pointer":
      return `${keyOf(type.to)}*`;
    case "reference":
      return `${keyOf(type.to)}&`;
    case "array":
      return `${keyOf(type.of)}[${type.length}]`;
    case "record":
      return `${type.record.name}#${type.record.id}`;
    case "function":
      return `${keyOf(type.returns)}(${type.parameters.map(keyOf).join(",")})`;
    case "opaque":
      return type.name;
    default:
      return type.kind;
  }
}
