/** Kinds and field names by the grammar's numbers. One table serves every tree of one parser; it fills as they are met. */
import type { Cursor } from "./cursor.js";
import { BRACKETED, CHILDLESS, DROPPED, FIELDLESS, SEMICOLON, VERBATIM, WORDS } from "./kinds.js";

/** What is known of one node kind. */
export interface KindFact {
  readonly kind: string;
  readonly named: boolean;
  readonly dropped: boolean;
  readonly childless: boolean;
  readonly fieldless: boolean;
  readonly word: boolean;
  readonly bracketed: boolean;
  readonly semicolon: boolean;
  readonly verbatim: boolean;
}

export interface GrammarTables {
  readonly kinds: (KindFact | undefined)[];
  readonly fields: (string | undefined)[];
}

export function createTables(): GrammarTables {
  return { kinds: [], fields: [] };
}

/** The number that stands for ERROR; too large for a table. */
const ERROR_NUMBER = 65535;
export const ERROR: KindFact = describe("ERROR", true);

/** The fact of the cursor's node. */
export function factOf(cursor: Cursor, tables: GrammarTables): KindFact {
  const number = cursor.nodeTypeId;
  const known = tables.kinds[number];
  if (known !== undefined) return known;
  if (number === ERROR_NUMBER) return ERROR;
  while (tables.kinds.length <= number) tables.kinds.push(undefined);
  const fact = describe(cursor.nodeType, cursor.nodeIsNamed);
  tables.kinds[number] = fact;
  return fact;
}

function describe(kind: string, named: boolean): KindFact {
  return {
    kind,
    named,
    dropped: DROPPED.has(kind),
    childless: !named || CHILDLESS.has(kind),
    fieldless: FIELDLESS.has(kind),
    word: WORDS.has(kind),
    bracketed: BRACKETED.has(kind),
    semicolon: SEMICOLON.has(kind),
    verbatim: VERBATIM.has(kind),
  };
}

/** The field name of the cursor's node, or null. */
export function fieldOf(cursor: Cursor, tables: GrammarTables): string | null {
  const number = cursor.currentFieldId;
  if (number === 0 || number === undefined) return null;
  const known = tables.fields[number];
  if (known !== undefined) return known;
  while (tables.fields.length <= number) tables.fields.push(undefined);
  const name = cursor.currentFieldName ?? null;
  if (name !== null) tables.fields[number] = name;
  return name;
}
