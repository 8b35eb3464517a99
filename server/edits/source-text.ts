/** Lines and statements of plain source text: where an edit goes and what a comment belongs to. No parsing. */

export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** The line in which an offset stands, without its line break. */
export function lineOf(text: string, offset: number): Stretch {
  const before = Math.max(text.lastIndexOf("\n", offset - 1), text.lastIndexOf("\r", offset - 1));
  let end = offset;
  while (end < text.length && text[end] !== "\n" && text[end] !== "\r") end += 1;
  return { start: before + 1, end };
}

/** The blanks with which a line begins. */
export function indentAt(text: string, offset: number): string {
  const line = lineOf(text, offset);
  return /^[ \t]*/.exec(text.slice(line.start, line.end))?.[0] ?? "";
}

/** The line break the text uses. */
export function lineBreak(text: string): string {
  return text.includes("\r\n") ? "\r\n" : "\n";
}

/** Offset of the first character at or after `offset` that is neither blank nor in a comment. */
export function skipBlank(text: string, offset: number): number {
  let at = offset;
  while (at < text.length) {
    if (/\s/.test(text[at]!)) at += 1;
    else if (text.startsWith("//", at)) at = lineOf(text, at).end;
    else if (text.startsWith("/*", at)) {
      const close = text.indexOf("*/", at + 2);
      at = close < 0 ? text.length : close + 2;
    } else return at;
  }
  return at;
}

/** The next statement after an offset: up to its `;` outside brackets, or up to an opening brace. */
export function statementAfter(text: string, offset: number): Stretch {
  const start = skipBlank(text, offset);
  return { start, end: endOfStatement(text, start) };
}

/** The offset just after the `;` that ends the statement in which `offset` stands, or of the brace that opens its body. */
export function endOfStatement(text: string, offset: number): number {
  let depth = 0;
  let at = offset;
  while (at < text.length) {
    const skipped = skipQuoted(text, at);
    if (skipped > at) {
      at = skipped;
      continue;
    }
    const character = text[at]!;
    if (character === "(" || character === "[") depth += 1;
    else if (character === ")" || character === "]") depth -= 1;
    else if (depth <= 0 && character === ";") return at + 1;
    else if (depth <= 0 && (character === "{" || character === "}")) return at;
    at += 1;
  }
  return text.length;
}

function skipQuoted(text: string, at: number): number {
  if (text.startsWith("//", at)) return lineOf(text, at).end;
  if (text.startsWith("/*", at)) {
    const close = text.indexOf("*/", at + 2);
    return close < 0 ? text.length : close + 2;
  }
  const quote = text[at];
  if (quote !== '"' && quote !== "'") return at;
  let end = at + 1;
  while (end < text.length && text[end] !== quote && text[end] !== "\n") end += text[end] === "\\" ? 2 : 1;
  return Math.min(end + 1, text.length);
}
