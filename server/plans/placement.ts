/**
 * Where a plan's code goes: in place of the statements that set the timer today, else before the first duty that setup
 * writes by itself, else at the end of setup (made where there is none), or in main before its loop.
 */

import type { Span } from "../../shared-model/span.js";
import type { Analysis } from "../analysis.js";
import { endOfStatement, indentAt, lineBreak, lineOf, type Stretch } from "../edits/source-text.js";
import {
  type Block,
  bodyOf,
  functionAround,
  type StatementMap,
  statementMap,
  statementsIn,
} from "../edits/statement-map.js";
import type { TextEdit } from "../edits/text-edit.js";
import type { SourceFile } from "../preprocess/source.js";
import { indented } from "./line-edits.js";

/** The sketch's own files with their statements, made once for each analysis. */
export interface OwnText {
  readonly file: SourceFile;
  readonly map: StatementMap;
}

const maps = new WeakMap<Analysis, readonly OwnText[]>();

export function ownTexts(analysis: Analysis): readonly OwnText[] {
  let known = maps.get(analysis);
  if (known === undefined) {
    known = analysis.files
      .filter((file) => file.kind === "sketch")
      .map((file) => ({ file, map: statementMap(file.text) }));
    maps.set(analysis, known);
  }
  return known;
}

export interface PlainStatement extends Stretch {
  readonly own: OwnText;
  /** The function in whose body it stands, under no condition; null inside an inner block. */
  readonly inBody: string | null;
}

/** The statement that is exactly this assignment or call; undefined where it is only part of one, or hangs on an `if`. */
export function plainStatement(analysis: Analysis, span: Span): PlainStatement | undefined {
  const own = ownTexts(analysis).find(({ file }) => file.path === span.path);
  if (own === undefined || !own.map.starts.has(span.start)) return undefined;
  const end = endOfStatement(own.file.text, span.start);
  if (own.file.text[end - 1] !== ";" || own.file.text.slice(span.end, end - 1).trim() !== "") return undefined;
  return { own, start: span.start, end, inBody: functionAround(own.map, span.start)?.functionName ?? null };
}

const ENDLESS = /^(?:while\s*\(\s*(?:1|true)\s*\)|for\s*\(\s*;\s*;\s*\))/;

/** Before a statement, on lines of their own. */
export function codeBefore(statement: PlainStatement, code: readonly string[]): TextEdit {
  const { text, path } = statement.own.file;
  const start = lineOf(text, statement.start).start;
  return {
    span: { path, start, end: start },
    text: indented(code, indentAt(text, statement.start), lineBreak(text)),
  };
}

/** At the end of setup, or in main before its endless loop; null where neither is there and none can be made. */
export function codeAtEnd(analysis: Analysis, code: readonly string[]): TextEdit | null {
  const name = analysis.core ? "setup" : "main";
  for (const own of ownTexts(analysis)) {
    const body = bodyOf(own.map, name);
    if (body !== undefined) return intoBody(own, body, code);
  }
  return analysis.core ? newSetup(analysis, code) : null;
}

function intoBody({ file, map }: OwnText, body: Block, code: readonly string[]): TextEdit {
  const { text, path } = file;
  const newline = lineBreak(text);
  const inside = statementsIn(map, body);
  const stop = inside.find((start) => ENDLESS.test(text.slice(start)) || isReturn(text, start));
  const indent =
    inside.length > 0 && ownsLine(text, inside[0]!)
      ? indentAt(text, inside[0]!)
      : indentAt(text, body.ownerStart) + indentUnit(text);
  if (stop !== undefined && ownsLine(text, stop)) {
    const start = lineOf(text, stop).start;
    return { span: { path, start, end: start }, text: indented(code, indent, newline) };
  }
  const at = stop ?? body.close;
  const line = lineOf(text, at);
  if (stop === undefined && text.slice(line.start, at).trim() === "")
    return { span: { path, start: line.start, end: line.start }, text: indented(code, indent, newline) };
  let start = at;
  while (text[start - 1] === " " || text[start - 1] === "\t") start -= 1;
  const after = stop === undefined ? indentAt(text, body.ownerStart) : indent;
  return { span: { path, start, end: at }, text: newline + indented(code, indent, newline) + after };
}

function ownsLine(text: string, at: number): boolean {
  return text.slice(lineOf(text, at).start, at).trim() === "";
}

function isReturn(text: string, start: number): boolean {
  return /^return\b/.test(text.slice(start, start + 7));
}

/** Before loop, which every program on the core has. */
function newSetup(analysis: Analysis, code: readonly string[]): TextEdit | null {
  for (const { file, map } of ownTexts(analysis)) {
    const loop = bodyOf(map, "loop");
    if (loop === undefined) continue;
    const newline = lineBreak(file.text);
    const start = lineOf(file.text, loop.ownerStart).start;
    const text = `void setup() {${newline}${indented(code, indentUnit(file.text), newline)}}${newline}${newline}`;
    return { span: { path: file.path, start, end: start }, text };
  }
  return null;
}

/** What one level of indentation is in this text: its first indented line's. */
export function indentUnit(text: string): string {
  const blanks = /^(\t|[ ]+)\S/m.exec(text.replace(/^[ \t]*\*.*$/gm, ""))?.[1];
  return blanks ?? "  ";
}
