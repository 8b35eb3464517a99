/** Lists that leave out inner braces: `int a[2][2] = { 1, 2, 3, 4 }`, `struct P { int x, y; } p[2] = { 1, 2, 3, 4 }` (C++11 8.5.1). */
import type { SyntaxNode } from "../parse/syntax.js";
import { lowerExpression } from "./expressions.js";
import type { RecordType } from "./ir.js";
import { type Body, type Lowering, scratchBody } from "./lowering.js";
import type { Type } from "./types.js";

/** The items of a list for a `type`, with lists made of those that belong to one element together. */
export function withBraces(run: Lowering, body: Body, type: Type, items: readonly SyntaxNode[]): SyntaxNode[] {
  const made: SyntaxNode[] = [];
  const parts = partsOf(type);
  for (let at = 0; at < items.length; ) {
    const item = items[at]!;
    const part = parts(made.length);
    const end = part !== undefined && isElided(run, body, part, item) ? behind(run, body, part, items, at) : at + 1;
    if (end === at + 1 && (part === undefined || !isElided(run, body, part, item))) made.push(item);
    else made.push(listOf(items.slice(at, end)));
    at = end;
  }
  return made;
}

function listOf(children: readonly SyntaxNode[]): SyntaxNode {
  const [first, last] = [children[0]!, children[children.length - 1]!];
  return { kind: "initializer_list", start: first.start, end: last.end, field: null, named: true, children };
}

/** The index of the first item behind those that fill a value of the type. */
function behind(run: Lowering, body: Body, type: Type, items: readonly SyntaxNode[], from: number): number {
  const parts = partsOf(type);
  let at = from;
  for (let index = 0; at < items.length; index++) {
    const part = parts(index);
    if (part === undefined) break;
    at = isElided(run, body, part, items[at]!) ? behind(run, body, part, items, at) : at + 1;
  }
  return Math.max(at, from + 1);
}

/** The type of each element or member in its turn; undefined behind the last. */
function partsOf(type: Type): (index: number) => Type | undefined {
  if (type.kind === "array") return (index) => (type.length === null || index < type.length ? type.of : undefined);
  const members = type.kind === "record" ? membersOf(type.record) : [];
  return (index) => members[index];
}

function membersOf(record: RecordType): Type[] {
  const own = record.fields.filter((field) => field.name !== "").map((field) => field.type);
  return [...record.bases.flatMap((base) => membersOf(base.record)), ...(record.union ? own.slice(0, 1) : own)];
}

const PLAIN = new Set(["number_literal", "char_literal", "true", "false", "unary_expression", "nullptr", "null"]);
const TEXTS = new Set(["string_literal", "concatenated_string", "raw_string_literal"]);

/** Whether the item is the first of several that fill the part, as opposed to a value for all of it. */
function isElided(run: Lowering, body: Body, part: Type, item: SyntaxNode): boolean {
  if (item.kind === "initializer_list" || item.kind === "initializer_pair") return false;
  if (part.kind === "array") return !(TEXTS.has(item.kind) && part.of.kind === "integer");
  if (part.kind !== "record" || (run.records.get(part.record)?.constructors.length ?? 0) > 0) return false;
  return PLAIN.has(item.kind) || TEXTS.has(item.kind) || !isObject(run, body, item);
}

/** Asks for the item's type alone: what is on record of names stays as it was. */
function isObject(run: Lowering, body: Body, item: SyntaxNode): boolean {
  const lists = [run.registerNames, run.literalNames, run.callNames];
  const lengths = lists.map((list) => list.length);
  const { kind } = lowerExpression(run, scratchBody(run, body.scope), item).type;
  for (const [index, list] of lists.entries()) list.length = lengths[index]!;
  return kind === "record" || kind === "opaque";
}
