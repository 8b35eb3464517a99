/** How the parser's tests look at trees: as text, and for what must hold of every tree. */
import { expect } from "vitest";
import type { SyntaxNode, SyntaxTree } from "../../server/parse/syntax.js";

/** `field: kind(children)`; words and numbers with their text. */
export function outline(tree: SyntaxTree): string {
  const show = (node: SyntaxNode): string => {
    const name = node.field === null ? "" : `${node.field}: `;
    if (!node.named) return `${name}'${node.kind}'`;
    if (node.children.length === 0) return `${name}${node.kind} ${tree.text.slice(node.start, node.end)}`.trimEnd();
    return `${name}${node.kind}(${node.children.map(show).join(", ")})`;
  };
  return tree.root.children.map(show).join("\n");
}

/** Children lie inside their parent, in order; fixed tokens are their own text. */
export function expectSound(tree: SyntaxTree): void {
  const visit = (node: SyntaxNode): void => {
    let from = node.start;
    for (const child of node.children) {
      expect(child.start).toBeGreaterThanOrEqual(from);
      expect(child.end).toBeLessThanOrEqual(node.end);
      // Directives' tokens may hold blanks, and their line ends are tokens.
      const isFixed = !child.named && tree.errors.length === 0 && !/^[#\n]/.test(child.kind);
      if (isFixed) expect(tree.text.slice(child.start, child.end)).toBe(child.kind);
      visit(child);
      from = child.end;
    }
  };
  visit(tree.root);
}
