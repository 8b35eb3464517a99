/** Linkage: which names a unit keeps to itself, and what it shares with others (C++11 3.5). */
import type { SyntaxNode } from "../parse/syntax.js";
import type { Lowering } from "./lowering.js";
import { type FunctionSymbol, Scope } from "./scope.js";
import { sameParameters } from "./signatures.js";
import type { Specifiers } from "./type-syntax.js";
import type { Type } from "./types.js";

/** External linkage: neither static nor a constant, which C++ keeps to the unit unless it is declared extern. */
export function hasLinkage(run: Lowering, specifiers: Specifiers, type: Type): boolean {
  if (specifiers.isStatic) return false;
  let element = type;
  while (element.kind === "array") element = element.of;
  return run.unit?.c === true || specifiers.isExtern || !specifiers.constant || element.kind === "pointer";
}

/** Each unit has its own part of a namespace; what has linkage in it is shared. */
export function namespaceOf(scope: Scope, name: string): Scope {
  const present = scope.own(name);
  if (present?.kind === "namespace") return present.scope;
  const inner = new Scope(scope, "namespace");
  scope.declare(name, { kind: "namespace", scope: inner });
  if (scope.shared !== null) {
    const known = scope.shared.here(name);
    inner.shared = known?.kind === "namespace" ? known.scope : new Scope(scope.shared, "namespace");
    scope.shared.declare(name, { kind: "namespace", scope: inner.shared });
  }
  return inner;
}

/** What is declared in it is seen around it, and by no other unit. */
export function namelessNamespace(scope: Scope): Scope {
  const inner = new Scope(scope, "namespace");
  scope.opened.push(inner);
  return inner;
}

/** A class's scope as another unit sees it: the class's own names, then those of that unit. */
export function viewFrom(outer: Scope, record: Scope): Scope {
  const view = new Scope(outer, "record");
  view.bases.push(record);
  return view;
}

/** `__attribute__((weak))`, before or behind the declarator: the grammar's text has blanks in its place. */
export function isWeak(run: Lowering, node: SyntaxNode, body: SyntaxNode | null): boolean {
  let start = node.start;
  while (start > 0 && run.text.charCodeAt(start - 1) <= 0x20) start--;
  const head = run.source.slice(start, body?.start ?? node.end);
  return head.includes("__attribute") && /\b(?:__)?weak(?:__)?\b/.test(head);
}

/** The same function, declared before: in this unit, or in another where it has external linkage. */
export function twinOf(
  run: Lowering,
  home: Scope,
  symbol: FunctionSymbol,
  constructors: FunctionSymbol[] | undefined,
): FunctionSymbol | undefined {
  const same = (other: FunctionSymbol): boolean => other.template === null && sameParameters(run, other, symbol);
  const near = setOf(home, symbol, constructors).find(same);
  if (near !== undefined || symbol.home === home) return near;
  const meaning = symbol.home.here(symbol.name);
  if (meaning?.kind !== "functions") return undefined;
  // C knows no overloads, and a prototype there may leave its parameters open.
  return meaning.set.find(same) ?? (run.unit?.c === true ? meaning.set[0] : undefined);
}

function setOf(
  home: Scope,
  symbol: FunctionSymbol,
  constructors: FunctionSymbol[] | undefined,
): readonly FunctionSymbol[] {
  if (symbol.constructorOf !== null) return constructors ?? [];
  const present = home.here(symbol.name);
  return present?.kind === "functions"
    ? present.set.filter((other) => other.home === home || other.home === home.shared)
    : [];
}

/** Default arguments stand in the declaration; they are kept by giving the definition the declaration's signature first. */
export function mergeFallbacks(declared: FunctionSymbol, defined: FunctionSymbol): SyntaxNode {
  const fallbacks = declared.signature?.parameters.map((parameter) => parameter.fallback) ?? [];
  const signature = defined.signature;
  if (signature !== null) {
    declared.signature = {
      ...signature,
      parameters: signature.parameters.map((parameter, index) => ({
        ...parameter,
        fallback: parameter.fallback ?? fallbacks[index] ?? null,
      })),
    };
  }
  return defined.node;
}
