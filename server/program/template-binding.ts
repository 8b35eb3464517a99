/** Template parameters and what they stand for: given, deduced or by default; specialisations that fit. */
import { child, ofKind, type SyntaxNode } from "../parse/syntax.js";
import { constantOf } from "./constant.js";
import { lowerExpression } from "./expressions.js";
import { type Lowering, scratchBody } from "./lowering.js";
import { typeReadAsExpression } from "./misread-types.js";
import { elementScopes } from "./packs.js";
import { type Meaning, Scope } from "./scope.js";
import { readType } from "./type-syntax.js";
import { keyOf } from "./types.js";

export interface Binding {
  readonly scope: Scope;
  /** Names the instance. */
  readonly key: string;
  readonly complete: boolean;
  /** What each parameter stands for, in order. */
  readonly meanings: readonly Meaning[];
}

/** A scope in which template parameters stand for the given arguments. */
export function bindTemplate(
  run: Lowering,
  useScope: Scope,
  homeScope: Scope,
  parameters: SyntaxNode | undefined,
  args: SyntaxNode | undefined,
  deduced: ReadonlyMap<string, Meaning> = new Map(),
): Binding {
  const scope = new Scope(homeScope, "template");
  const given = expandedArguments(run, useScope, args);
  const meanings: Meaning[] = [];
  let complete = true;
  let index = 0;
  for (const parameter of parameters?.children ?? []) {
    if (!parameter.named) continue;
    const name = parameterName(run, parameter);
    const isType = parameter.kind.includes("type_parameter");
    let meaning: Meaning | undefined;
    if (parameter.kind.startsWith("variadic")) {
      const items = given.slice(index).map((argument) => templateArgument(run, argument.scope, argument.node, isType));
      index = given.length;
      if (items.some((item) => item === undefined)) complete = false;
      else if (items.length === 0 && deduced.has(name)) meaning = deduced.get(name);
      else meaning = { kind: "pack", items: items as Meaning[] };
    } else {
      const argument = given[index++];
      if (argument !== undefined) meaning = templateArgument(run, argument.scope, argument.node, isType);
      else if (deduced.has(name)) meaning = deduced.get(name);
      else {
        const fallback = child(parameter, "default_type") ?? child(parameter, "default_value");
        if (fallback !== undefined) meaning = templateArgument(run, scope, fallback, isType);
      }
    }
    if (meaning === undefined) {
      complete = false;
      continue;
    }
    scope.declare(name, meaning);
    meanings.push(meaning);
  }
  if (index < given.length) complete = false;
  return { scope, key: meanings.map(meaningKey).join(""), complete, meanings };
}

/** The arguments as written, packs expanded, each with the scope in which it is read. */
function expandedArguments(
  run: Lowering,
  scope: Scope,
  args: SyntaxNode | undefined,
): { readonly node: SyntaxNode; readonly scope: Scope }[] {
  return (args?.children ?? [])
    .filter((part) => part.named)
    .flatMap((node) => {
      const pattern = node.kind === "parameter_pack_expansion" ? child(node, "pattern") : undefined;
      if (pattern === undefined) return [{ node, scope }];
      return elementScopes(run, scope, pattern).map((inner) => ({ node: pattern, scope: inner }));
    });
}

export function parameterName(run: Lowering, parameter: SyntaxNode): string {
  let node =
    parameter.kind === "type_parameter_declaration" || parameter.kind === "variadic_type_parameter_declaration"
      ? ofKind(parameter, "type_identifier")
      : parameter.kind === "optional_type_parameter_declaration"
        ? child(parameter, "name")
        : (child(parameter, "declarator") ?? ofKind(parameter, "identifier"));
  while (node?.kind.endsWith("_declarator")) {
    node = child(node, "declarator") ?? node.children.find((part) => part.named);
  }
  return node === undefined ? "" : run.textOf(node);
}

function templateArgument(run: Lowering, scope: Scope, node: SyntaxNode, wantsType: boolean): Meaning | undefined {
  if (wantsType) {
    const type = readType(run, scope, node);
    return type === null ? undefined : { kind: "type", type };
  }
  const inner = node.kind === "type_descriptor" ? (typeReadAsExpression(node) ?? child(node, "type") ?? node) : node;
  const expression = lowerExpression(run, scratchBody(run, scope), inner);
  const value = constantOf(expression);
  if (value === undefined) {
    // A register, a variable or a function as template argument: bind the name itself.
    const named = inner.kind === "pointer_expression" ? (child(inner, "argument") ?? inner) : inner;
    const found = scope.find(run.textOf(named));
    return found?.kind === "functions" || inner === named ? found : undefined;
  }
  return { kind: "constant", value, type: expression.type };
}

function meaningKey(meaning: Meaning): string {
  switch (meaning.kind) {
    case "type":
      return `${keyOf(meaning.type)},`;
    case "constant":
      return `${meaning.value},`;
    case "pack":
      return `(${meaning.items.map(meaningKey).join("")}),`;
    case "variable":
      return `v${meaning.variable.id},`;
    case "functions":
      return `f${meaning.set[0]?.node.start ?? 0},`;
    default:
      return "?,";
  }
}

/** The scope of a partial specialisation whose patterns these meanings fit; null where they do not. */
export function matchSpecialisation(
  run: Lowering,
  homeScope: Scope,
  parameters: SyntaxNode | undefined,
  patterns: SyntaxNode | undefined,
  meanings: readonly Meaning[],
): Scope | null {
  const names = new Set(
    (parameters?.children ?? []).filter((part) => part.named).map((part) => parameterName(run, part)),
  );
  const scope = new Scope(homeScope, "template");
  const given = (patterns?.children ?? []).filter((part) => part.named);
  const actual = meanings.flatMap((meaning) => (meaning.kind === "pack" ? meaning.items : [meaning]));
  for (const [index, pattern] of given.entries()) {
    if (pattern.kind === "parameter_pack_expansion") {
      const word = child(pattern, "pattern");
      if (word !== undefined) scope.declare(run.textOf(word), { kind: "pack", items: actual.slice(index) });
      return scope;
    }
    const meaning = actual[index];
    if (meaning === undefined || !matches(run, scope, names, pattern, meaning)) return null;
  }
  return given.length === actual.length ? scope : null;
}

function matches(
  run: Lowering,
  scope: Scope,
  names: ReadonlySet<string>,
  pattern: SyntaxNode,
  meaning: Meaning,
): boolean {
  const word = pattern.kind === "type_descriptor" ? child(pattern, "type") : pattern;
  if (word !== undefined && names.has(run.textOf(word))) {
    let bound = meaning;
    for (let node = child(pattern, "declarator"); node !== undefined; node = child(node, "declarator")) {
      const wanted = node.kind.includes("pointer") ? "pointer" : node.kind.includes("reference") ? "reference" : "";
      if (bound.kind !== "type" || bound.type.kind !== wanted) return false;
      if (bound.type.kind !== "pointer" && bound.type.kind !== "reference") return false;
      bound = { kind: "type", type: bound.type.to };
    }
    const present = scope.own(run.textOf(word));
    if (present !== undefined) return meaningKey(present) === meaningKey(bound);
    scope.declare(run.textOf(word), bound);
    return true;
  }
  const own = templateArgument(run, scope, pattern, meaning.kind === "type");
  return own !== undefined && meaningKey(own) === meaningKey(meaning);
}
