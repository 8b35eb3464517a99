/** `using namespace A::B`, `using A::name`, `namespace C = A::B`: names of elsewhere made known here. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import type { Lowering } from "./lowering.js";
import { findQualified } from "./qualified-names.js";
import type { Meaning, Scope } from "./scope.js";

export function declareUsing(run: Lowering, scope: Scope, node: SyntaxNode): void {
  const name = node.children.find((part) => part.named);
  if (name === undefined) return;
  const meaning = meaningOf(run, scope, name);
  if (node.children.some((part) => part.kind === "namespace")) {
    if (meaning?.kind === "namespace") scope.opened.push(meaning.scope);
    return;
  }
  const last = lastOf(name);
  if (meaning === undefined || last === undefined) return;
  const word = run.textOf(last);
  // A set of its own, so that overloads added here stay here.
  if (meaning.kind === "functions") {
    const present = scope.own(word);
    const set = present?.kind === "functions" ? [...present.set, ...meaning.set] : [...meaning.set];
    scope.declare(word, { kind: "functions", set: [...new Set(set)] });
  } else scope.declare(word, meaning);
}

export function declareNamespaceAlias(run: Lowering, scope: Scope, node: SyntaxNode): void {
  const name = child(node, "name");
  const target = node.children.find((part) => part.named && part !== name);
  if (name === undefined || target === undefined) return;
  const parts = target.kind === "nested_namespace_specifier" ? target.children.filter((part) => part.named) : [target];
  let meaning: Meaning | undefined = scope.find(run.textOf(parts[0]!));
  for (const part of parts.slice(1)) {
    meaning = meaning?.kind === "namespace" ? meaning.scope.own(run.textOf(part)) : undefined;
  }
  if (meaning?.kind === "namespace") scope.declare(run.textOf(name), meaning);
}

function meaningOf(run: Lowering, scope: Scope, name: SyntaxNode): Meaning | undefined {
  return name.kind === "qualified_identifier" ? findQualified(run, scope, name) : scope.find(run.textOf(name));
}

function lastOf(name: SyntaxNode): SyntaxNode | undefined {
  let last: SyntaxNode | undefined = name;
  while (last?.kind === "qualified_identifier") last = child(last, "name");
  return last;
}
