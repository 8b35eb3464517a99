/** The syntax tree as the later stages see it: small plain nodes, made in one walk over tree-sitter's tree. */

/**
 * `kind` is tree-sitter-cpp's node kind; anonymous tokens keep theirs (`+=`, `const`, `virtual`), punctuation that
 * carries no meaning (`; , ( ) { } [ ]`, quotes) is dropped, and so are comments. `start`/`end` are UTF-16 offsets into the expanded text.
 */
export interface SyntaxNode {
  readonly kind: string;
  readonly start: number;
  readonly end: number;
  /** tree-sitter's field name under the parent, or null. */
  readonly field: string | null;
  readonly named: boolean;
  readonly children: readonly SyntaxNode[];
}

export interface SyntaxTree {
  readonly root: SyntaxNode;
  readonly text: string;
  /** Stretches that the parser could not make sense of (ERROR and missing nodes), ascending. */
  readonly errors: readonly { readonly start: number; readonly end: number; readonly missing: string | null }[];
  /** Set where the text was refused before parsing (nesting, size), with the reason. */
  readonly refused: string | null;
}

/** The child under a field name; undefined where there is none. */
export function child(node: SyntaxNode, field: string): SyntaxNode | undefined {
  for (const candidate of node.children) {
    if (candidate.field === field) return candidate;
  }
  return undefined;
}

/** All children under a field name, in order. */
export function childrenOf(node: SyntaxNode, field: string): SyntaxNode[] {
  return node.children.filter((candidate) => candidate.field === field);
}

/** The first child of a kind; undefined where there is none. */
export function ofKind(node: SyntaxNode, kind: string): SyntaxNode | undefined {
  for (const candidate of node.children) {
    if (candidate.kind === kind) return candidate;
  }
  return undefined;
}
