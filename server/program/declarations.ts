/** What a translation unit declares: variables, functions, types, namespaces, templates. In any order, as sketches do. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import { isConstantSetting, knownFrom } from "./constant.js";
import { assignFresh, constructDefault, type Initialiser, initialise, initialiserOf } from "./construction.js";
import { referenceTo, rvalue } from "./conversions.js";
import { CORE_CLASSES } from "./core-functions.js";
import { readDeclarator } from "./declarators.js";
import { remember } from "./destruction.js";
import { lowerExpression } from "./expressions.js";
import { addFunction } from "./functions.js";
import type { Expression, Statement, Variable } from "./ir.js";
import { hasLinkage, namelessNamespace, namespaceOf } from "./linkage.js";
import { lengthFrom } from "./lists.js";
import type { Body, Lowering } from "./lowering.js";
import { declarationReadAsAssignment, functionReadAsDeclaration, prototypeReadAsObject } from "./misread.js";
import { typeReadAsExpression } from "./misread-types.js";
import { placeOf } from "./places.js";
import { findQualified } from "./qualified-names.js";
import type { Scope } from "./scope.js";
import { defineStaticMember } from "./static-members.js";
import { declareTemplate, isOutsideTemplateMember } from "./template-declarations.js";
import { namesType, readSpecifiers, readType, type Specifiers } from "./type-syntax.js";
import { BOOL, decayed, INT16, type Type } from "./types.js";
import { declareNamespaceAlias, declareUsing } from "./using.js";

/** Walks the declarations of a unit, a namespace or an `extern "C"` block. Bodies of functions are left for later. */
export function declareAll(run: Lowering, scope: Scope, nodes: readonly SyntaxNode[], startup: Body): void {
  for (const node of nodes) declareOne(run, scope, node, startup);
}

/** Functions that initialisers above them may name; each is declared when the first one does. */
export function announceFunctions(run: Lowering, scope: Scope, nodes: readonly SyntaxNode[]): void {
  const later = new Map<string, () => void>();
  for (const node of nodes) {
    const declarator = node.kind === "function_definition" ? child(node, "declarator") : undefined;
    const name = declarator?.kind === "function_declarator" ? child(declarator, "declarator") : undefined;
    if (name?.kind !== "identifier" || later.has(run.textOf(name))) continue;
    later.set(run.textOf(name), () => {
      if (addFunction(run, scope, node, null) !== null) announced.add(node);
    });
  }
  scope.later = later;
}

const announced = new WeakSet<SyntaxNode>();

function declareOne(run: Lowering, scope: Scope, node: SyntaxNode, startup: Body): void {
  if (announced.has(node)) return;
  switch (node.kind) {
    case "function_definition":
      if (addFunction(run, scope, node, null) === null && !isOutsideTemplateMember(run, scope, node, null)) {
        if (!hasErrors(node)) run.gap(node, "function definition not understood");
      }
      return;
    case "declaration": {
      const meant = functionReadAsDeclaration(node);
      if (meant !== null) addFunction(run, scope, meant, null);
      else declareVariables(run, scope, node, startup);
      return;
    }
    case "template_declaration":
      declareTemplate(run, scope, node);
      return;
    case "namespace_definition": {
      const name = child(node, "name");
      const body = child(node, "body");
      const text = name === undefined ? "" : run.textOf(name);
      const inner = text === "" ? namelessNamespace(scope) : namespaceOf(scope, text);
      // What an inline namespace declares is seen around it.
      if (node.children.some((part) => part.kind === "inline") && !scope.opened.includes(inner))
        scope.opened.push(inner);
      if (body !== undefined) declareAll(run, inner, body.children, startup);
      return;
    }
    case "linkage_specification": {
      const body = child(node, "body");
      if (body === undefined) return;
      declareAll(run, scope, body.kind === "declaration_list" ? body.children : [body], startup);
      return;
    }
    case "expression_statement": {
      const declaration = declarationReadAsAssignment(node);
      if (declaration !== null) declareVariables(run, scope, declaration, startup);
      else if (node.children.some((part) => part.named)) run.gap(node, "statement outside of any function");
      return;
    }
    case "static_assert_declaration":
    case "empty_statement":
    case ";":
      return;
    case "ERROR":
      declareInside(run, scope, node, startup);
      return;
    default:
      if (declareNames(run, scope, node)) return;
      if (node.kind.startsWith("preproc") || node.kind.startsWith("attribute") || !node.named) return;
      run.gap(node, "declaration not understood");
  }
}

/** What declares types or other names and does nothing else, at file level as in functions; false where it is none such. */
export function declareNames(run: Lowering, scope: Scope, node: SyntaxNode): boolean {
  switch (node.kind) {
    case "struct_specifier":
    case "class_specifier":
    case "union_specifier":
    case "enum_specifier":
      readType(run, scope, node);
      return true;
    case "type_definition":
    case "alias_declaration":
      declareAlias(run, scope, node);
      return true;
    case "using_declaration":
      declareUsing(run, scope, node);
      return true;
    case "namespace_alias_definition":
      declareNamespaceAlias(run, scope, node);
      return true;
    default:
      return false;
  }
}

/** Half-typed text: what can be read inside an error node still counts. */
function declareInside(run: Lowering, scope: Scope, node: SyntaxNode, startup: Body): void {
  for (const part of node.children) {
    if (part.kind === "function_definition" || part.kind === "declaration" || part.kind === "class_specifier") {
      declareOne(run, scope, part, startup);
    }
  }
}

function hasErrors(node: SyntaxNode): boolean {
  return node.kind === "ERROR" || node.children.some(hasErrors);
}

export function declareAlias(run: Lowering, scope: Scope, node: SyntaxNode): void {
  if (node.kind === "alias_declaration") {
    const name = child(node, "name");
    const target = child(node, "type");
    const type = target === undefined ? null : readType(run, scope, target);
    if (name !== undefined && type !== null) scope.declare(run.textOf(name), { kind: "type", type });
    return;
  }
  const specifiers = readSpecifiers(run, scope, node);
  if (specifiers.type === null) return;
  for (const part of node.children) {
    if (part.field !== "declarator") continue;
    const read = readDeclarator(run, scope, part, specifiers.type);
    if (read.name !== null) scope.declare(run.textOf(read.name), { kind: "type", type: read.type });
  }
}

/** Global variables, prototypes and types at file or namespace level. */
export function declareVariables(run: Lowering, scope: Scope, node: SyntaxNode, startup: Body): void {
  const prototype = prototypeReadAsObject(node, (name) => namesType(run, scope, name));
  if (prototype !== null) {
    addFunction(run, scope, prototype, null);
    return;
  }
  const specifiers = readSpecifiers(run, scope, node);
  for (const part of node.children) {
    if (part.field !== "declarator") continue;
    const variable = declareVariable(run, scope, node, part, specifiers, startup, "global");
    if (variable === "function") addFunction(run, scope, node, null);
  }
}

/**
 * Declares one variable and initialises it by statements in `body.out`.
 * Answers "function" where the declarator is a prototype after all, null where it is not understood.
 */
export function declareVariable(
  run: Lowering,
  scope: Scope,
  node: SyntaxNode,
  declarator: SyntaxNode,
  specifiers: Specifiers,
  body: Body,
  storage: "global" | "local",
): Variable | "function" | null {
  let initialiser: Initialiser =
    declarator.kind === "init_declarator"
      ? initialiserOf(child(declarator, "value"))
      : initialiserOf(child(node, "default_value") ?? child(node, "value"));
  const provisional = specifiers.type ?? INT16;
  const read = readDeclarator(run, scope, declarator, provisional);
  let type = read.type;
  if (read.function !== null) {
    const args = argumentsInDisguise(run, scope, read.function);
    if (args === null) return "function";
    initialiser = { kind: "arguments", nodes: args };
    type = provisional;
  }
  if (read.name === null) return null;
  const previous = body.scope;
  body.scope = scope;
  if (read.name.kind === "qualified_identifier") {
    defineStaticMember(run, scope, read.name, initialiser, body);
    body.scope = previous;
    return null;
  }
  const name = run.textOf(read.name);
  const linked = storage === "global" && hasLinkage(run, specifiers, type) ? scope.shared : null;
  const present = scope.own(name) ?? linked?.here(name);
  if (storage === "global" && present?.kind === "variable" && run.globals.includes(present.variable)) {
    scope.declare(name, present);
    if (!specifiers.isExtern || initialiser.kind !== "none")
      complete(run, body, present.variable, type, initialiser, declarator);
    body.scope = previous;
    return present.variable;
  }
  let first: Expression | null = null;
  if (specifiers.type === null) {
    if (initialiser.kind === "value") {
      first = lowerExpression(run, body, initialiser.node);
      type = rebuild(type, decayed(first.type));
    } else {
      run.gap(declarator, "auto without a value");
      type = { kind: "opaque", name: "auto" };
    }
  }
  if (type.kind === "array" && type.length === null) {
    type = { kind: "array", of: type.of, length: lengthFrom(run, body, type.of, initialiser) };
  }
  const variable =
    storage === "global"
      ? run.globalVariable(name, type, read.name.start)
      : run.local(body, name, type, read.name.start);
  variable.constant =
    (specifiers.constant || specifiers.constexpr) && initialiser.kind !== "none" && type.kind !== "pointer";
  variable.volatile = specifiers.volatile;
  scope.declare(name, { kind: "variable", variable });
  linked?.declare(name, { kind: "variable", variable });
  if (type.kind === "opaque" && !CORE_CLASSES.has(type.name) && !type.name.startsWith("result of ")) {
    run.gap(declarator, `type ${type.name} was not seen`, [name]);
  }
  const before = body.out.length;
  if (storage === "local") body.out.push({ op: "declare", variable, zero: false, start: read.name.start });
  if (type.kind === "reference") bindReference(run, body, variable, initialiser, first, declarator);
  else if (first !== null && initialiser.kind === "value") {
    const place = placeOf(variable, read.name.start, read.name.end);
    if (type.kind === "record") assignFresh(run, body, place, first, initialiser.node);
    else initialiseWith(run, body, place, first, initialiser.node);
  } else if (specifiers.isExtern && initialiser.kind === "none") {
    // Defined elsewhere; if nowhere, its value is unknown.
    externals.add(variable);
  } else {
    const place = placeOf(variable, read.name.start, read.name.end);
    if (initialiser.kind !== "none") initialised.add(variable);
    if (storage === "global" && initialiser.kind === "none") constructDefault(run, body, place);
    else initialise(run, body, place, initialiser, storage === "global" && initialiser.kind !== "none");
  }
  if (storage === "local" && type.kind !== "reference")
    remember(run, body, placeOf(variable, read.name.start, read.name.end));
  if (variable.constant) variable.known = knownFrom(body.out.slice(before), variable);
  if (storage === "global") setBeforeStart(run, body, before);
  body.scope = previous;
  return variable;
}

/** A second declaration (the one that was extern is defined, or the same header again): only what was missing counts. */
function complete(
  run: Lowering,
  body: Body,
  variable: Variable,
  type: Type,
  initialiser: Initialiser,
  declarator: SyntaxNode,
): void {
  if (initialiser.kind === "none" ? !externals.has(variable) : initialised.has(variable)) return;
  externals.delete(variable);
  if (variable.type.kind === "array" && variable.type.length === null && type.kind === "array") {
    variable.type = type.length === null ? { ...type, length: lengthFrom(run, body, type.of, initialiser) } : type;
  }
  const before = body.out.length;
  const place = placeOf(variable, declarator.start, declarator.end);
  if (initialiser.kind === "none") constructDefault(run, body, place);
  else {
    initialised.add(variable);
    initialise(run, body, place, initialiser, true);
  }
  setBeforeStart(run, body, before);
}

/** What is known when compiled is in its place before any constructor runs, whatever stands before it. */
function setBeforeStart(run: Lowering, body: Body, from: number): void {
  const own = body.out.slice(from);
  if (own.length === 0 || body.out === run.startup || !own.every(isConstantSetting)) return;
  body.out.length = from;
  for (const statement of own) run.startup.push(statement);
}

const initialised = new WeakSet<Variable>();
/** Declared extern and not (yet) defined. */
export const externals = new WeakSet<Variable>();

function initialiseWith(
  _run: Lowering,
  body: Body,
  target: ReturnType<typeof placeOf>,
  value: Expression,
  node: SyntaxNode,
): void {
  body.out.push({ op: "initialise", target, value: rvalue(value), start: node.start, end: node.end });
}

/** `auto &` and `auto *` around the type that the initialiser gave. */
function rebuild(shape: Type, inner: Type): Type {
  if (shape.kind === "reference") return { kind: "reference", to: inner };
  if (shape.kind === "pointer") return inner;
  return inner;
}

function bindReference(
  run: Lowering,
  body: Body,
  variable: Variable,
  initialiser: Initialiser,
  first: Expression | null,
  node: SyntaxNode,
): void {
  const source =
    initialiser.kind === "value"
      ? initialiser.node
      : initialiser.kind === "arguments"
        ? initialiser.nodes[0]
        : undefined;
  if (source === undefined || variable.type.kind !== "reference") {
    run.gap(node, "reference without anything to refer to", [variable.name]);
    return;
  }
  const value = first ?? lowerExpression(run, body, source);
  const pointer: Type = { kind: "pointer", to: variable.type.to };
  body.out.push({
    op: "initialise",
    target: { op: "variable", variable, type: pointer, start: node.start, end: node.end },
    value: referenceTo(run, body, value, variable.type.to, source),
    start: node.start,
    end: node.end,
  });
}

/** `F f(a, b);` is a declaration of an object when a and b are no types: tree-sitter cannot know. */
function argumentsInDisguise(run: Lowering, scope: Scope, declarator: SyntaxNode): SyntaxNode[] | null {
  const list = child(declarator, "parameters");
  if (list === undefined || list.children.length === 0) return null;
  const args: SyntaxNode[] = [];
  for (const part of list.children) {
    if (part.kind === "identifier" || part.kind === "number_literal") {
      args.push(part);
      continue;
    }
    // `f()` and `table[2]` look like types of functions and arrays.
    const meant = part.kind === "parameter_declaration" ? typeReadAsExpression(part) : null;
    const type = child(part, "type");
    if (meant === null) return null;
    if (type === undefined || part.children.some((inner) => inner.kind === "type_qualifier")) return null;
    if (type.kind !== "type_identifier" && type.kind !== "qualified_identifier") return null;
    if (namesType(run, scope, type)) return null;
    const meaning =
      type.kind === "qualified_identifier" ? findQualified(run, scope, type) : scope.find(run.textOf(type));
    if (meaning === undefined && !run.registers.has(run.textOf(type))) return null;
    args.push(meant);
  }
  return args;
}

/** A static inside a function: lives for ever, set once. */
export function declareStaticLocal(
  run: Lowering,
  body: Body,
  node: SyntaxNode,
  declarator: SyntaxNode,
  specifiers: Specifiers,
): void {
  const outer = body.out;
  const own: Statement[] = [];
  body.out = own;
  const variable = declareVariable(run, body.scope, node, declarator, specifiers, body, "global");
  body.out = outer;
  if (variable === "function" || variable === null || own.length === 0) return;
  if (own.every(isConstantSetting)) {
    run.startup.push(...own);
    return;
  }
  const flag = run.globalVariable("", BOOL, declarator.start);
  outer.push({ op: "once", flag, body: { op: "block", body: own } });
}
