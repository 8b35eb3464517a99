/** Parameter packs: `f(g(rest)...)` as one argument for each thing the pack stands for. */
import { child, type SyntaxNode } from "../parse/syntax.js";
import type { Lowering } from "./lowering.js";
import { type Meaning, Scope } from "./scope.js";

/** Patterns that stand for one element of a pack, with the scope in which the pack's name is that element. */
const elements = new WeakMap<SyntaxNode, { readonly pattern: SyntaxNode; readonly scope: Scope }>();

/** The nodes with every expansion replaced by its elements; `lowerExpression` takes those as `packElement` says. */
export function expandPacks(run: Lowering, scope: Scope, nodes: readonly SyntaxNode[]): readonly SyntaxNode[] {
  if (!nodes.some((node) => node.kind === "parameter_pack_expansion")) return nodes;
  return nodes.flatMap((node) => {
    const pattern = node.kind === "parameter_pack_expansion" ? child(node, "pattern") : undefined;
    if (pattern === undefined) return [node];
    return elementScopes(run, scope, pattern).map((inner): SyntaxNode => {
      const element: SyntaxNode = { ...pattern, kind: "pack_element", children: [pattern] };
      elements.set(element, { pattern, scope: inner });
      return element;
    });
  });
}

export function packElement(node: SyntaxNode): { readonly pattern: SyntaxNode; readonly scope: Scope } | undefined {
  return elements.get(node);
}

/** One scope for each element of the packs that the pattern names. */
export function elementScopes(run: Lowering, scope: Scope, pattern: SyntaxNode): Scope[] {
  const packs = new Map<string, readonly Meaning[]>();
  const walk = (node: SyntaxNode): void => {
    if (node.kind === "identifier" || node.kind === "type_identifier") {
      const meaning = scope.find(run.textOf(node));
      if (meaning?.kind === "pack") packs.set(run.textOf(node), meaning.items);
    }
    for (const part of node.children) walk(part);
  };
  walk(pattern);
  const length = Math.max(0, ...[...packs.values()].map((items) => items.length));
  return Array.from({ length }, (_, index) => {
    const inner = new Scope(scope, "block");
    for (const [name, items] of packs) {
      const item = items[index];
      if (item !== undefined) inner.declare(name, item);
    }
    return inner;
  });
}
