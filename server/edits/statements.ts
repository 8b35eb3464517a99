/** Whole statements of plain source text: which stretch is one, and how it is taken out. Text only, no parsing. */
import { lineOf, type Stretch } from "./source-text.js";

/** The text asked about last: one finding asks about the same text again and again. */
let latest = { text: "", code: "" };

/** The text with comments, quoted text and preprocessor lines blanked out, length kept. */
export function codeOnly(text: string): string {
  if (latest.text !== text) latest = { text, code: blanked(text) };
  return latest.code;
}

function blanked(text: string): string {
  const blank = (found: string) => found.replace(/[^\r\n]/g, " ");
  return text
    .replace(/\/\/[^\r\n]*|\/\*[\s\S]*?(?:\*\/|$)|"(?:[^"\\\r\n]|\\.)*"|'(?:[^'\\\r\n]|\\.)*'/g, blank)
    .replace(/^[ \t]*#(?:[^\r\n\\]|\\\r?\n|\\.)*/gm, blank);
}

/**
 * The statement, with its `;`, that `span` fills from end to end; null where it is part of another one, hangs on an `if` or a
 * label without braces, or stands in a macro.
 */
export function plainStatement(text: string, span: Stretch): Stretch | null {
  const code = codeOnly(text);
  if (code.slice(span.start, span.end).trim() === "") return null;
  const before = code.slice(0, span.start).trimEnd();
  if (!/[;{}]$/.test(before) || insideBrackets(before)) return null;
  const rest = /^\s*;/.exec(code.slice(span.end));
  return rest === null ? null : { start: span.start, end: span.end + rest[0].length };
}

/** Whether a round bracket that is not closed yet stands before the end, in the same block: the head of a `for`, a call. */
function insideBrackets(before: string): boolean {
  let depth = 0;
  for (let at = before.length - 1; at >= 0; at -= 1) {
    const character = before[at]!;
    if (character === ")") depth += 1;
    else if (character === "(") depth -= 1;
    if (depth < 0) return true;
    if (depth === 0 && (character === "{" || character === "}")) return false;
  }
  return false;
}

/** What to take out with a statement: its whole lines where nothing but a comment stands beside it. */
export function removalOf(text: string, statement: Stretch): Stretch {
  const code = codeOnly(text);
  const first = lineOf(text, statement.start);
  const last = lineOf(text, statement.end);
  const alone =
    code.slice(first.start, statement.start).trim() === "" && code.slice(statement.end, last.end).trim() === "";
  if (!alone || text.slice(statement.end, last.end).includes("/*")) {
    const blank = /^[ \t]*/.exec(text.slice(statement.end))![0].length;
    return { start: statement.start, end: statement.end + blank };
  }
  const broken = /^\r?\n/.exec(text.slice(last.end))?.[0].length ?? 0;
  return { start: first.start, end: last.end + broken };
}

/** Whether two offsets, the first before the second, stand in one block: no brace closes or opens for good in between. */
export function inOneBlock(text: string, from: number, to: number): boolean {
  let depth = 0;
  for (const character of codeOnly(text).slice(from, to)) {
    if (character === "{") depth += 1;
    if (character === "}") depth -= 1;
    if (depth < 0) return false;
  }
  return depth === 0;
}

/** Offset just after the brace that opens the body of a function of this name; null where the text has none. */
export function bodyOf(text: string, name: string): number | null {
  const found = new RegExp(`\\b${name}\\s*\\([^(){};]*\\)\\s*\\{`).exec(codeOnly(text));
  return found === null ? null : found.index + found[0].length;
}
