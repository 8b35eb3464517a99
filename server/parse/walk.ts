/**
 * One walk over tree-sitter's tree, through a cursor, into plain nodes. Every property read crosses into native code
 * and costs as much as making a node, so each is read at most once per node: kinds are looked up by number, field names
 * asked only below kinds that have some. This walk takes nothing else for granted and serves trees with errors; for the
 * others there is a quicker one, which must give the same.
 */
import type { Cursor } from "./cursor.js";
import { ERROR, factOf, fieldOf, type GrammarTables, type KindFact } from "./grammar-tables.js";
import type { SyntaxNode, SyntaxTree } from "./syntax.js";

const NO_CHILDREN: readonly SyntaxNode[] = Object.freeze([]);
/** Later stages descend into the tree recursively; a deeper one is refused. */
export const MAX_TREE_DEPTH = 4000;

type Errors = { start: number; end: number; missing: string | null }[];

export interface Found {
  readonly root: SyntaxNode;
  readonly errors: SyntaxTree["errors"];
  readonly tooDeep: boolean;
}

/** The plain tree below the cursor's node. The cursor is left anywhere. */
export function walk(cursor: Cursor, tables: GrammarTables): Found {
  const errors: Errors = [];
  const open: { readonly siblings: SyntaxNode[]; readonly fieldless: boolean }[] = [];
  let siblings: SyntaxNode[] = [];
  let fieldless = true;
  let tooDeep = false;
  do {
    const fact = factOf(cursor, tables);
    noteError(cursor, fact, errors);
    if (!fact.dropped) {
      const { kind, named } = fact;
      const start = cursor.startIndex;
      const field = fieldless ? null : fieldOf(cursor, tables);
      const end = cursor.endIndex;
      if (!fact.childless && cursor.gotoFirstChild()) {
        const children: SyntaxNode[] = [];
        siblings.push({ kind, start, end, field, named, children });
        if (open.length < MAX_TREE_DEPTH) {
          open.push({ siblings, fieldless });
          siblings = children;
          fieldless = fact.fieldless;
          continue;
        }
        tooDeep = true;
        cursor.gotoParent();
      } else siblings.push({ kind, start, end, field, named, children: NO_CHILDREN });
    }
    while (open.length > 0 && !cursor.gotoNextSibling()) {
      cursor.gotoParent();
      ({ siblings, fieldless } = open.pop() as { siblings: SyntaxNode[]; fieldless: boolean });
    }
  } while (open.length > 0);
  return { root: siblings[0] as SyntaxNode, errors, tooDeep };
}

function noteError(cursor: Cursor, fact: KindFact, errors: Errors): void {
  if (fact === ERROR) errors.push({ start: cursor.startIndex, end: cursor.endIndex, missing: null });
  else if (cursor.nodeIsMissing) errors.push({ start: cursor.startIndex, end: cursor.startIndex, missing: fact.kind });
}
