/** `switch (x) case 3: y();`: the grammar knows a switch only with braces, so that its body is given some. */
import type { Mark } from "./put-in-marks.js";

const SWITCH = /\bswitch\s*(?=\()/g;

/** Braces around bodies of switches that have none; a body whose end is not found is left alone. */
export function switchMarks(text: string): Mark[] {
  if (!text.includes("switch")) return [];
  const opening: Mark[] = [];
  const closing: Mark[] = [];
  for (const found of text.matchAll(SWITCH)) {
    const head = behindBrackets(text, found.index + found[0].length);
    const body = head === null ? null : skipBlanks(text, head);
    if (body === null || text[body] === "{" || !/^(?:case|default)\b/.test(text.slice(body, body + 8))) continue;
    const end = behindStatement(text, body, 0);
    if (end === null) continue;
    opening.push({ at: body, mark: "{" });
    // An inner switch ends where the outer one does: its brace comes first.
    closing.unshift({ at: end, mark: "}" });
  }
  return [...opening, ...closing];
}

/** Statements inside statements looked into at the most. */
const MAX_DEPTH = 100;

/** Behind the statement that begins at or after `at`, its labels and `else` included; null where it does not end. */
function behindStatement(text: string, at: number, depth: number): number | null {
  const start = skipBlanks(text, at);
  if (depth > MAX_DEPTH || start >= text.length) return null;
  if (text[start] === "{") return behindBrackets(text, start);
  const word = /^\w+/.exec(text.slice(start, start + 12))?.[0];
  if (word === "case" || word === "default") {
    const colon = labelEnd(text, start);
    return colon === null ? null : behindStatement(text, colon, depth + 1);
  }
  if (word === "if" || word === "for" || word === "while" || word === "switch") {
    const open = text.indexOf("(", start);
    const head = open < 0 ? null : behindBrackets(text, open);
    const end = head === null ? null : behindStatement(text, head, depth + 1);
    if (word !== "if" || end === null) return end;
    const other = skipBlanks(text, end);
    return /^else\b/.test(text.slice(other, other + 5)) ? behindStatement(text, other + 4, depth + 1) : end;
  }
  if (word === "do") {
    const body = behindStatement(text, start + 2, depth + 1);
    return body === null ? null : behindMark(text, body, ";");
  }
  return behindMark(text, start, ";");
}

/** Behind the colon of a case label: not one of `::` or of a choice. */
function labelEnd(text: string, start: number): number | null {
  let choices = 0;
  for (let at = start; at < text.length; at++) {
    const letter = text[at]!;
    if (letter === "'" || letter === '"') at = behindQuote(text, at) - 1;
    else if (letter === "?") choices++;
    else if (letter === ";" || letter === "{") return null;
    else if (letter === ":" && text[at + 1] === ":") at++;
    else if (letter === ":" && choices-- === 0) return at + 1;
  }
  return null;
}

function behindMark(text: string, start: number, mark: string): number | null {
  let depth = 0;
  for (let at = start; at < text.length; at++) {
    const letter = text[at]!;
    if (letter === "'" || letter === '"') at = behindQuote(text, at) - 1;
    else if ("([{".includes(letter)) depth++;
    else if (")]}".includes(letter) && --depth < 0) return null;
    else if (letter === mark && depth === 0) return at + 1;
  }
  return null;
}

/** Behind the bracket that closes the one at `start`. */
function behindBrackets(text: string, start: number): number | null {
  let depth = 0;
  for (let at = start; at < text.length; at++) {
    const letter = text[at]!;
    if (letter === "'" || letter === '"') at = behindQuote(text, at) - 1;
    else if ("([{".includes(letter)) depth++;
    else if (")]}".includes(letter) && --depth === 0) return at + 1;
  }
  return null;
}

/** Behind a character or text; an apostrophe between digits opens none. */
function behindQuote(text: string, start: number): number {
  const quote = text[start]!;
  if (quote === "'" && /\w/.test(text[start - 1] ?? "") && /\w/.test(text[start + 1] ?? "")) return start + 1;
  for (let at = start + 1; at < text.length; at++) {
    if (text[at] === "\\") at++;
    else if (text[at] === quote || text[at] === "\n") return at + 1;
  }
  return text.length;
}

function skipBlanks(text: string, at: number): number {
  let end = at;
  while (end < text.length && /\s/.test(text[end]!)) end++;
  return end;
}
