/** Types as specifiers spell them: built-in ones, names, classes declared in place. */

import { child, type SyntaxNode } from "../parse/syntax.js";
import { declareClass, declareEnum, instantiateClass } from "./classes.js";
import { readTypeDescriptor } from "./declarators.js";
import { lowerExpression } from "./expressions.js";
import { type Lowering, scratchBody } from "./lowering.js";
import { namedPlace } from "./places.js";
import { findQualified } from "./qualified-names.js";
import type { Scope } from "./scope.js";
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
      return declaredType(run, scope, inner, run.source.startsWith("__typeof", node.start));
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

/**
 * decltype (C++11 7.1.6.2): a name's own type; of any other expression that names a place, a reference to it. A register's name
 * stands for such an expression. gcc's typeof, which the parser is given as decltype, has no references.
 */
function declaredType(run: Lowering, scope: Scope, node: SyntaxNode, plain: boolean): Type {
  const value = lowerExpression(run, scratchBody(run, scope), node);
  if (plain) return value.type;
  const meaning = node.kind === "identifier" ? scope.find(run.textOf(node)) : undefined;
  if (meaning?.kind === "variable") return meaning.variable.type;
  const place = NAMES.has(node.kind) && value.op !== "register" ? null : namedPlace(value);
  const isTemporary = place?.op === "variable" && place.variable.name === "";
  return place === null || isTemporary ? value.type : { kind: "reference", to: value.type };
}

const NAMES = new Set(["identifier", "qualified_identifier", "field_expression"]);

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

/** What `enable_if<false>::type` is: where it is part of a template's signature, the template is none of those meant. */
export const NO_SUCH_MEMBER: Type = { kind: "opaque", name: "(no such member)" };

function isMemberOfTemplate(run: Lowering, scope: Scope, node: SyntaxNode): boolean {
  const outer = child(node, "scope");
  const name = outer?.kind === "template_type" ? child(outer, "name") : undefined;
  if (name === undefined || scope.findTemplate(run.textOf(name))?.kind !== "class template") return false;
  const type = namedType(run, scope, outer!);
  return type?.kind === "record" && type.record.size >= 0 && type.record.bases.length === 0;
}

export function namedType(run: Lowering, scope: Scope, node: SyntaxNode): Type | null {
  if (node.kind === "qualified_identifier") {
    const meaning = findQualified(run, scope, node);
    if (meaning?.kind === "type") return meaning.type;
    if (meaning === undefined) {
      const last = child(node, "name");
      if (isMemberOfTemplate(run, scope, node)) return NO_SUCH_MEMBER;
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
