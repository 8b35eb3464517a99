/** Chooses the walk that fits the tree. */
import type { Cursor } from "./cursor.js";
import type { GrammarTables } from "./grammar-tables.js";
import { swiftWalk } from "./swift-walk.js";
import { type Found, walk } from "./walk.js";

/** Directives bring line ends into the tree. Expanded text has none, but not every text is expanded. */
const DIRECTIVE = /^[ \t]*#/m;

/** `hasError`: there is an ERROR or a missing node somewhere in the tree. The cursor stands on its root. */
export function plainTree(cursor: Cursor, tables: GrammarTables, text: string, hasError: boolean): Found {
  return hasError || DIRECTIVE.test(text) ? walk(cursor, tables) : swiftWalk(cursor, tables, text);
}
