/** What `A::B::c` stands for, and the scopes that types bring along. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import type { Lowering } from "./lowering.js";
import type { Meaning, Scope } from "./scope.js";
import { namedType } from "./type-syntax.js";
import type { Type } from "./types.js";

/** What `A::B::c` stands for. */
export function findQualified(run: Lowering, scope: Scope, node: SyntaxNode): Meaning | undefined {
  let inside: Scope | null = null;
  let current: SyntaxNode | undefined = node;
  while (current !== undefined && current.kind === "qualified_identifier") {
    const scopeNode = child(current, "scope");
    const name = child(current, "name");
    if (scopeNode === undefined) {
      inside = scope.file;
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
