/**
 * The walk for trees without errors: gives the same nodes as `walk`, with about half the reads. In such a tree only
 * blank space stands between neighbours, so a node begins where the last one's blank space ends, a word ends where its
 * letters end, and a closing bracket at its parent's end is the last child and need not be visited.
 */
import type { Cursor } from "./cursor.js";
import { factOf, fieldOf, type GrammarTables, type KindFact } from "./grammar-tables.js";
import type { SyntaxNode } from "./syntax.js";
import { type Found, MAX_TREE_DEPTH } from "./walk.js";

const NO_CHILDREN: readonly SyntaxNode[] = Object.freeze([]);
const NO_ERRORS: Found["errors"] = Object.freeze([]);

interface Open {
  readonly siblings: SyntaxNode[];
  readonly fact: KindFact;
  readonly end: number;
}

/** The plain tree of a whole text. The cursor stands on the root, and is left anywhere. */
export function swiftWalk(cursor: Cursor, tables: GrammarTables, text: string): Found {
  const rootFact = factOf(cursor, tables);
  const children: SyntaxNode[] = [];
  const root: SyntaxNode = {
    kind: rootFact.kind,
    start: cursor.startIndex,
    end: cursor.endIndex,
    field: null,
    named: true,
    children,
  };
  const open: Open[] = [];
  let siblings = children;
  let parent = rootFact;
  let parentEnd = root.end;
  let at = root.start;
  let more = cursor.gotoFirstChild();
  while (more) {
    const fact = factOf(cursor, tables);
    const start = parent.verbatim ? cursor.startIndex : at;
    if (fact.dropped) at = fact.kind === "comment" ? cursor.endIndex : start + fact.kind.length;
    else {
      const end = endOf(fact, text, start, cursor);
      const field = parent.fieldless ? null : fieldOf(cursor, tables);
      const isEmpty = fact.childless || (fact.bracketed && isEmptyPair(text, start, end));
      if (!isEmpty && cursor.gotoFirstChild()) {
        const below: SyntaxNode[] = [];
        siblings.push({ kind: fact.kind, start, end, field, named: fact.named, children: below });
        if (open.length === MAX_TREE_DEPTH) return { root, errors: NO_ERRORS, tooDeep: true };
        open.push({ siblings, fact: parent, end: parentEnd });
        siblings = below;
        parent = fact;
        parentEnd = end;
        at = start;
        if (!fact.bracketed) continue;
        // The opening bracket.
        cursor.gotoNextSibling();
        at = behindBlank(text, start + 1, cursor);
        continue;
      }
      siblings.push({ kind: fact.kind, start, end, field, named: fact.named, children: NO_CHILDREN });
      at = end;
    }
    for (;;) {
      at = blankEnd(text, at);
      if (!isLast(text, at, parent, parentEnd) && cursor.gotoNextSibling()) {
        if (text.charCodeAt(at) === 0x2c && !parent.verbatim && cursor.gotoNextSibling()) at = blankEnd(text, at + 1);
        // What is no plain character here may be blank space to the grammar.
        if (!isPlain(text.charCodeAt(at))) at = cursor.startIndex;
        break;
      }
      const outer = open.pop();
      if (outer === undefined) {
        more = false;
        break;
      }
      cursor.gotoParent();
      at = parentEnd;
      siblings = outer.siblings;
      parent = outer.fact;
      parentEnd = outer.end;
    }
  }
  return { root, errors: NO_ERRORS, tooDeep: false };
}

/** Whether nothing that is kept follows in this parent. */
function isLast(text: string, at: number, parent: KindFact, parentEnd: number): boolean {
  if (at >= parentEnd) return true;
  if (at + 1 !== parentEnd || parent.verbatim) return false;
  const code = text.charCodeAt(at);
  // A semicolon may also be an empty statement, which is a node.
  return code === 0x29 || code === 0x5d || code === 0x7d || (code === 0x3b && parent.semicolon);
}

function behindBlank(text: string, from: number, cursor: Cursor): number {
  const at = blankEnd(text, from);
  return isPlain(text.charCodeAt(at)) ? at : cursor.startIndex;
}

function blankEnd(text: string, from: number): number {
  let at = from;
  while (text.charCodeAt(at) <= 0x20) at++;
  return at;
}

function isPlain(code: number): boolean {
  return code < 0x7f && code !== 0x5c;
}

function isEmptyPair(text: string, start: number, end: number): boolean {
  return blankEnd(text, start + 1) === end - 1;
}

function endOf(fact: KindFact, text: string, start: number, cursor: Cursor): number {
  if (!fact.named) return start + fact.kind.length;
  if (!fact.word) return cursor.endIndex;
  let at = start + 1;
  let code = text.charCodeAt(at);
  while (isWord(code)) code = text.charCodeAt(++at);
  // Letters of other alphabets, and escapes for them.
  return code < 0x7f && code !== 0x5c ? at : cursor.endIndex;
}

function isWord(code: number): boolean {
  return (
    (code >= 0x61 && code <= 0x7a) ||
    (code >= 0x41 && code <= 0x5a) ||
    (code >= 0x30 && code <= 0x39) ||
    code === 0x5f ||
    code === 0x24
  );
}
