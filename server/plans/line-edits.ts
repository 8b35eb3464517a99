/** Edits of whole statements: taken out together with the lines they leave empty, and code put in their place. */
import { indentAt, lineBreak, lineOf, type Stretch } from "../edits/source-text.js";
import type { TextEdit } from "../edits/text-edit.js";

/** Comments that the tool reads stay wherever they are. */
const OURS = /^(?:\/\/+|\/\*+)\s*(?:wants|bench reads|for pulsewright)\b/;
/** What a comment says of a timer's setting: a rate, a prescaler, a mode. */
const OF_A_SETTING =
  /\d\s*(?:k|M)?Hz\b|prescal|\/\s*(?:8|32|64|128|256|1024)\b|phase.?correct|fast.?pwm|\bCTC\b|\bTOP\b|\bWGM|\bCS\d/i;

export interface Replacement {
  readonly path: string;
  readonly text: string;
  /** Statements to take out, each up to and with its `;`. */
  readonly statements: readonly Stretch[];
  /** Index of the statement in whose place the code comes; null where it comes nowhere. */
  readonly codeAt: number | null;
  /** Unindented lines. */
  readonly code: readonly string[];
}

export function replaceStatements(replacement: Replacement): readonly TextEdit[] {
  const { path, text, code } = replacement;
  const mark = replacement.codeAt === null ? undefined : replacement.statements[replacement.codeAt];
  const statements = [...replacement.statements].sort((left, right) => left.start - right.start);
  const edits: TextEdit[] = [];
  for (const group of byLines(text, statements)) {
    const holds = mark !== undefined && group.statements.includes(mark);
    const put = holds ? indented(code, indentAt(text, group.lines.start), lineBreak(text)) : "";
    edits.push(...(isAlone(text, group) ? wholeLines(path, text, group, put) : partsOfLines(path, text, group, put)));
  }
  return edits;
}

/** The lines, each with the indentation, each with its line break. */
export function indented(code: readonly string[], indent: string, newline: string): string {
  return code.map((line) => `${indent}${line}${newline}`).join("");
}

interface LineGroup {
  readonly lines: Stretch;
  readonly statements: readonly Stretch[];
}

function byLines(text: string, statements: readonly Stretch[]): LineGroup[] {
  const groups: { lines: { start: number; end: number }; statements: Stretch[] }[] = [];
  for (const statement of statements) {
    const start = lineOf(text, statement.start).start;
    const end = lineOf(text, statement.end).end;
    const last = groups[groups.length - 1];
    if (last !== undefined && last.lines.end >= start) {
      last.lines.end = Math.max(last.lines.end, end);
      last.statements.push(statement);
    } else groups.push({ lines: { start, end }, statements: [statement] });
  }
  return groups;
}

/** Whether nothing but blanks and comments about them is left of the lines. */
function isAlone(text: string, { lines, statements }: LineGroup): boolean {
  let rest = "";
  let at = lines.start;
  for (const { start, end } of statements) {
    rest += text.slice(at, start);
    at = end;
  }
  rest = `${rest}${text.slice(at, lines.end)}`.trim();
  if (rest === "") return true;
  const comment = rest.startsWith("//") || (rest.startsWith("/*") && rest.indexOf("*/") === rest.length - 2);
  return comment && !OURS.test(rest);
}

function wholeLines(path: string, text: string, { lines }: LineGroup, put: string): TextEdit[] {
  const start = aboveOldRemark(text, lines.start);
  let end = lines.end;
  if (text.startsWith("\r\n", end)) end += 2;
  else if (end < text.length) end += 1;
  return [{ span: { path, start, end }, text: put }];
}

/** The start of a comment line right above that speaks of a setting, else the place itself. */
function aboveOldRemark(text: string, start: number): number {
  if (start === 0) return start;
  const above = lineOf(text, text.startsWith("\r\n", start - 2) ? start - 2 : start - 1);
  return isOldRemark(text.slice(above.start, above.end)) ? above.start : start;
}

/** Whether a stretch is one comment, not ours, that speaks of a setting. */
function isOldRemark(stretch: string): boolean {
  const line = stretch.trim();
  const isComment = line.startsWith("//") || (line.startsWith("/*") && line.indexOf("*/") === line.length - 2);
  return isComment && !OURS.test(line) && OF_A_SETTING.test(line);
}

function partsOfLines(path: string, text: string, { lines, statements }: LineGroup, put: string): TextEdit[] {
  const edits: TextEdit[] = runsOf(text, statements).map(({ start: begin, end }) => {
    let start = begin;
    let after = end;
    while (isBlank(text[after])) after += 1;
    const remark = text.slice(after, lines.end);
    // At the end of what is on the line the blanks before go, else those behind.
    const last = text[after] === "}" || isOldRemark(remark);
    if (!last) return { span: { path, start, end: after }, text: "" };
    while (isBlank(text[start - 1])) start -= 1;
    return { span: { path, start, end: text[after] === "}" ? end : lines.end }, text: "" };
  });
  if (put === "") return edits;
  const before = text.slice(lines.start, statements[0]!.start).trim() === "";
  if (before) return [{ span: { path, start: lines.start, end: lines.start }, text: put }, ...edits];
  const newline = lineBreak(text);
  const after = { path, start: lines.end, end: lines.end };
  return [...edits, { span: after, text: newline + put.slice(0, -newline.length) }];
}

/** Statements with nothing but blanks between them, as one stretch. */
function runsOf(text: string, statements: readonly Stretch[]): Stretch[] {
  const runs: { start: number; end: number }[] = [];
  for (const { start, end } of statements) {
    const last = runs[runs.length - 1];
    if (last !== undefined && text.slice(last.end, start).trim() === "") last.end = end;
    else runs.push({ start, end });
  }
  return runs;
}

function isBlank(character: string | undefined): boolean {
  return character === " " || character === "\t";
}
