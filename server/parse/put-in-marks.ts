/**
 * Brackets that the grammar needs and C++ does not: put in before parsing, and every offset of the tree counted back to the
 * text without them.
 */
import type { SyntaxNode } from "./syntax.js";
import type { Found } from "./walk.js";

/** One character to be put in before offset `at`. */
export interface Mark {
  readonly at: number;
  readonly mark: string;
}

export interface Marked {
  readonly text: string;
  /** Offsets in the marked text of what was put in, ascending. */
  readonly inserted: readonly number[];
}

/** Marks at one place come in the order given. */
export function withMarks(text: string, marks: readonly Mark[]): Marked {
  if (marks.length === 0) return { text, inserted: [] };
  const inserted: number[] = [];
  let made = "";
  let kept = 0;
  for (const { at, mark } of [...marks].sort((a, b) => a.at - b.at)) {
    made += text.slice(kept, at);
    inserted.push(made.length);
    made += mark;
    kept = at;
  }
  return { text: made + text.slice(kept), inserted };
}

/** The tree with every offset as it is in the text without the marks. */
export function withoutMarks(found: Found, inserted: readonly number[]): Found {
  if (inserted.length === 0) return found;
  const back = (offset: number): number => {
    let [low, high] = [0, inserted.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (inserted[middle]! < offset) low = middle + 1;
      else high = middle;
    }
    return offset - low;
  };
  const moved = (node: SyntaxNode): SyntaxNode => ({
    ...node,
    start: back(node.start),
    end: back(node.end),
    children: node.children.map(moved),
  });
  const errors = found.errors.map((error) => ({ ...error, start: back(error.start), end: back(error.end) }));
  return { ...found, root: moved(found.root), errors };
}
