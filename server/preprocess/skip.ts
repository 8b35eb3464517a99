/** Passing over text that does not count: the rest of a directive's line, and groups of a conditional. */
import { behindLiteral, behindRawString, behindSplice, isRawPrefix, isWord } from "./characters.js";
import type { FileCursor } from "./file-cursor.js";
import type { Token } from "./token.js";
import type { TokenReader } from "./token-reader.js";

/** Reads to the end of the directive's line, comments noted; gives the offset of its newline. */
export function passOver(reader: TokenReader): number {
  while (reader.read() === "token") {
    // Nothing of it counts.
  }
  reader.spaced = false;
  return reader.at;
}

/** The directive that ends a group. */
export interface GroupEnd {
  readonly name: "elif" | "else" | "endif";
  readonly hash: number;
  /** Behind the directive's name. */
  readonly at: number;
}

/** The next `#elif`, `#else` or `#endif` of the same level; undefined where the file ends first. */
export function skipGroup(cursor: FileCursor, from: number): GroupEnd | undefined {
  cursor.muted = true;
  try {
    return findGroupEnd(cursor, from);
  } finally {
    cursor.muted = false;
  }
}

function findGroupEnd(cursor: FileCursor, from: number): GroupEnd | undefined {
  const { text, reader } = cursor;
  let depth = 0;
  let at = from;
  let lineBegins = false;
  // A slash that opens no comment leaves `lineBegins` as it is: no directive can follow on its line.
  while (at < text.length) {
    const code = text.charCodeAt(at);
    if (code === 0x0a) {
      lineBegins = true;
      at++;
    } else if (code <= 0x20) at++;
    else if (code === 0x2f) at = Math.max(reader.behindComment(at), at + 1);
    else if (code === 0x23 && lineBegins) {
      lineBegins = false;
      reader.at = at + 1;
      const name = reader.read() === "token" ? (reader.token as Token).text : "";
      if (name === "if" || name === "ifdef" || name === "ifndef") depth++;
      else if (name === "endif" || name === "else" || name === "elif") {
        if (depth === 0) return { name, hash: at, at: reader.at };
        if (name === "endif") depth--;
      }
      at = Math.max(reader.at, at + 1);
    } else {
      lineBegins = false;
      at = behindPiece(text, at, code);
    }
  }
  return undefined;
}

/** The offset behind a stretch of code that holds no newline, comment or quote of its own. */
function behindPiece(text: string, at: number, code: number): number {
  if (code === 0x22 || code === 0x27) return behindLiteral(text, at);
  if (code === 0x5c) return Math.max(behindSplice(text, at), at + 1);
  if (!isWord(code)) return at + 1;
  let end = at + 1;
  while (isWord(text.charCodeAt(end))) end++;
  if (text.charCodeAt(end) === 0x22 && isRawPrefix(text, at, end)) return behindRawString(text, end);
  // A digit separator is no quote.
  if (text.charCodeAt(end) === 0x27 && code >= 0x30 && code <= 0x39 && isWord(text.charCodeAt(end + 1))) return end + 1;
  return end;
}
