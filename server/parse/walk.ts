/**
 * One walk over tree-sitter's tree, through a cursor, into plain nodes. Both builds of tree-sitter offer the same
 * cursor. Every property read crosses into native code, so each is read at most once per node and only where it can
 * say something new: kind and named-ness are looked up by number, missing-ness is asked of empty nodes alone.
 * Knows nothing of what the kinds mean.
 */
import type { SyntaxNode, SyntaxTree } from "./syntax.js";

/** What both builds' cursors have in common, as far as it is used. */
export interface Cursor {
  readonly nodeType: string;
  readonly nodeTypeId: number;
  readonly nodeIsNamed: boolean;
  readonly nodeIsMissing: boolean;
  readonly startIndex: number;
  readonly endIndex: number;
  readonly currentFieldId: number;
  readonly currentFieldName: string | null | undefined;
  gotoFirstChild(): boolean;
  gotoNextSibling(): boolean;
  gotoParent(): boolean;
}

/** What is known of one node type, by its number in the grammar. */
interface KindFact {
  readonly kind: string;
  readonly named: boolean;
  readonly dropped: boolean;
  /** Whether a node of this type never has children that are kept. */
  readonly leaf: boolean;
}

/** Numbers are the grammar's, so one table serves every tree of one parser; it fills as kinds are met. */
export interface GrammarTables {
  readonly kinds: (KindFact | undefined)[];
  readonly fields: (string | undefined)[];
  /** The number that stands for ERROR is huge; it would make `kinds` a dictionary. */
  errorKind: KindFact | undefined;
}

export function createTables(): GrammarTables {
  return { kinds: [], fields: [], errorKind: undefined };
}

/** Punctuation without meaning of its own, quotes, and comments. */
const DROPPED = new Set([";", ",", "(", ")", "{", "}", "[", "]", '"', "'", "comment"]);

/** Kinds whose whole text is the fact. */
const LEAVES = new Set([
  "identifier",
  "type_identifier",
  "field_identifier",
  "namespace_identifier",
  "statement_identifier",
  "primitive_type",
  "number_literal",
  "true",
  "false",
  "null",
  "this",
  "string_content",
  "escape_sequence",
  "auto",
  "raw_string_content",
]);

const NO_CHILDREN: readonly SyntaxNode[] = Object.freeze([]);
const ERROR_NUMBER = 65535;
/** Later stages descend into the tree recursively; beyond this depth the text is refused. */
export const MAX_TREE_DEPTH = 4000;

interface Found {
  readonly root: SyntaxNode;
  readonly errors: SyntaxTree["errors"];
  readonly tooDeep: boolean;
}

/** The plain tree below the cursor's node. The cursor is left anywhere. */
export function walk(cursor: Cursor, tables: GrammarTables): Found {
  const errors: { start: number; end: number; missing: string | null }[] = [];
  const stack: SyntaxNode[][] = [];
  let siblings: SyntaxNode[] = [];
  let tooDeep = false;
  for (;;) {
    const fact = factOf(cursor, tables);
    if (!fact.dropped) {
      const start = cursor.startIndex;
      const end = cursor.endIndex;
      const field = fieldOf(cursor, tables);
      if (fact.kind === "ERROR") errors.push({ start, end, missing: null });
      else if (start === end && cursor.nodeIsMissing) errors.push({ start, end, missing: fact.kind });
      if (!fact.leaf && cursor.gotoFirstChild()) {
        const children: SyntaxNode[] = [];
        siblings.push({ kind: fact.kind, start, end, field, named: fact.named, children });
        if (stack.length < MAX_TREE_DEPTH) {
          stack.push(siblings);
          siblings = children;
          continue;
        }
        tooDeep = true;
        cursor.gotoParent();
      } else {
        siblings.push({ kind: fact.kind, start, end, field, named: fact.named, children: NO_CHILDREN });
      }
    } else if (fact.kind !== "comment") {
      // A missing bracket or semicolon is dropped like any other, but it is an error all the same.
      noteMissing(cursor, fact, errors);
    }
    while (stack.length > 0 && !cursor.gotoNextSibling()) {
      cursor.gotoParent();
      siblings = stack.pop() as SyntaxNode[];
    }
    if (stack.length === 0) break;
  }
  return { root: siblings[0] as SyntaxNode, errors, tooDeep };
}

function noteMissing(cursor: Cursor, fact: KindFact, errors: { start: number; end: number; missing: string | null }[]) {
  if (cursor.nodeIsMissing) errors.push({ start: cursor.startIndex, end: cursor.startIndex, missing: fact.kind });
}

function factOf(cursor: Cursor, tables: GrammarTables): KindFact {
  const number = cursor.nodeTypeId;
  if (number === ERROR_NUMBER) {
    tables.errorKind ??= { kind: "ERROR", named: true, dropped: false, leaf: false };
    return tables.errorKind;
  }
  const known = tables.kinds[number];
  if (known !== undefined) return known;
  while (tables.kinds.length <= number) tables.kinds.push(undefined);
  const kind = cursor.nodeType;
  const named = cursor.nodeIsNamed;
  const fact: KindFact = { kind, named, dropped: DROPPED.has(kind), leaf: !named || LEAVES.has(kind) };
  tables.kinds[number] = fact;
  return fact;
}

function fieldOf(cursor: Cursor, tables: GrammarTables): string | null {
  const number = cursor.currentFieldId;
  if (number === 0 || number === undefined) return null;
  const known = tables.fields[number];
  if (known !== undefined) return known;
  while (tables.fields.length <= number) tables.fields.push(undefined);
  const name = cursor.currentFieldName ?? null;
  if (name !== null) tables.fields[number] = name;
  return name;
}
