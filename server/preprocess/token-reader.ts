/**
 * Reads preprocessing tokens out of a file's text, one after another: definitions, directive lines, macro arguments.
 * Knows nothing of macros or directives; newlines and comments are told to whoever reads.
 */
import {
  BACKSLASH,
  BLANK,
  behindLiteral,
  behindNumber,
  behindRawString,
  behindSplice,
  CLASS,
  DIGIT,
  DOT,
  endOfLine,
  isDigit,
  isRawPrefix,
  isWord,
  LETTER,
  NEWLINE,
  QUOTE,
  SLASH,
} from "./characters.js";
import { makeToken, SPACED, type Token, type TokenKind } from "./token.js";

/** What ended the search for a token. */
export type Stop = "token" | "line" | "end";

export class TokenReader {
  /** Where the next read begins. */
  at = 0;
  /** After a read that gave "token". */
  token: Token | undefined;
  /** Blank space or a comment was passed since the last token. */
  spaced = false;

  constructor(
    readonly text: string,
    readonly file: number,
    /** Told of every comment passed: its start and end. */
    readonly onComment: ((start: number, end: number) => void) | undefined,
    /**
     * Whether a word is a macro. Where it is given, a literal takes a word that directly follows it as its suffix, as
     * C++11 has it, unless that word is a macro.
     */
    readonly isMacro?: (name: string) => boolean,
  ) {}

  /** Reads the next token of this line. At a newline it stops before it. */
  read(): Stop {
    const { text } = this;
    let at = this.at;
    while (at < text.length) {
      const code = text.charCodeAt(at);
      const kind = code < 128 ? CLASS[code] : LETTER;
      if (kind === BLANK) {
        this.spaced = true;
        at++;
        continue;
      }
      if (kind === NEWLINE) {
        this.at = at;
        return "line";
      }
      if (kind === SLASH) {
        const end = this.behindComment(at);
        if (end > at) {
          this.spaced = true;
          at = end;
          continue;
        }
      } else if (kind === BACKSLASH) {
        const behind = behindSplice(text, at);
        if (behind > at) {
          at = behind;
          continue;
        }
      }
      this.at = at;
      this.take(at, kind as number);
      return "token";
    }
    this.at = at;
    return "end";
  }

  /** The offset behind the comment that begins at `at`, or `at` where none does. */
  behindComment(at: number): number {
    const { text } = this;
    const next = text.charCodeAt(at + 1);
    let end = at;
    if (next === 0x2f) end = endOfLine(text, at);
    else if (next === 0x2a) {
      const close = text.indexOf("*/", at + 2);
      end = close < 0 ? text.length : close + 2;
    } else return at;
    this.onComment?.(at, end);
    return end;
  }

  private take(at: number, kind: number): void {
    const { text } = this;
    let end = behindToken(text, at, kind);
    if (this.isMacro !== undefined && end > at + 1 && isQuote(text.charCodeAt(end - 1))) {
      const behind = behindWord(text, end);
      if (behind > end && !this.isMacro(text.slice(end, behind))) end = behind;
    }
    const flags = this.spaced ? SPACED : 0;
    this.spaced = false;
    if (text.charCodeAt(end) === 0x5c && behindSplice(text, end) > end) this.takeSpliced(at, flags);
    else {
      let spelling = text.slice(at, end);
      // A literal may hold splices inside.
      if (kind === QUOTE && spelling.includes("\n")) spelling = spelling.replace(/\\[ \t\r]*\n/g, "");
      this.token = makeToken(kindOf(kind, spelling), spelling, flags, this.file, at, end);
      this.at = end;
    }
  }

  /** A token that a backslash-newline may cut in two: read from a copy of the line without the splices. */
  private takeSpliced(at: number, flags: number): void {
    const { text } = this;
    for (let window = 256; ; window *= 4) {
      const places: number[] = [];
      let clean = "";
      let from = at;
      while (from < text.length && clean.length < window) {
        const behind = behindSplice(text, from);
        if (behind > from) from = behind;
        else {
          places.push(from);
          clean += text[from++];
        }
      }
      const code = clean.charCodeAt(0);
      const kind = code < 128 ? (CLASS[code] as number) : LETTER;
      const end = behindToken(clean, 0, kind);
      if (end >= clean.length && from < text.length) continue;
      const spelling = clean.slice(0, end);
      this.at = (places[end - 1] as number) + 1;
      this.token = makeToken(kindOf(kind, spelling), spelling, flags, this.file, at, this.at);
      return;
    }
  }
}

/** Whether all of `text` is exactly one token; that token's kind, or undefined. */
export function asOneToken(text: string): TokenKind | undefined {
  if (text.length === 0) return undefined;
  const code = text.charCodeAt(0);
  const kind = code < 128 ? (CLASS[code] as number) : LETTER;
  if (kind === BLANK || kind === NEWLINE) return undefined;
  if (kind === SLASH && (text.startsWith("//") || text.startsWith("/*"))) return undefined;
  const end = behindToken(text, 0, kind);
  if (end === text.length) return kindOf(kind, text);
  // A literal with a suffix of the user's own.
  return isQuote(text.charCodeAt(end - 1)) && end > 1 && behindWord(text, end) === text.length ? "text" : undefined;
}

function isQuote(code: number): boolean {
  return code === 0x22 || code === 0x27;
}

/** The offset behind the word that begins at `at`, or `at` where none does. */
function behindWord(text: string, at: number): number {
  let end = at;
  if (isDigit(text.charCodeAt(at))) return at;
  while (isWord(text.charCodeAt(end))) end++;
  return end;
}

/** The offset behind the token that begins at `at`. */
export function behindToken(text: string, at: number, kind: number): number {
  if (kind === LETTER) {
    let end = at + 1;
    while (isWord(text.charCodeAt(end))) end++;
    const next = text.charCodeAt(end);
    if (next === 0x22 && isRawPrefix(text, at, end)) return behindRawString(text, end);
    // L"x" and u8"x" are one token; a suffix is a token of its own.
    if ((next === 0x22 || next === 0x27) && isLiteralPrefix(text, at, end)) return behindLiteral(text, end);
    return end;
  }
  if (kind === DIGIT) return behindNumber(text, at);
  if (kind === QUOTE) return behindLiteral(text, at);
  if (kind === DOT && isDigit(text.charCodeAt(at + 1))) return behindNumber(text, at);
  return at + lengthOfMark(text, at);
}

function isLiteralPrefix(text: string, start: number, end: number): boolean {
  if (end - start > 2) return false;
  const prefix = text.slice(start, end);
  return prefix === "L" || prefix === "u" || prefix === "U" || prefix === "u8";
}

function kindOf(kind: number, spelling: string): TokenKind {
  if (kind === LETTER) return spelling.includes('"') || spelling.includes("'") ? "text" : "word";
  if (kind === DIGIT) return "number";
  if (kind === QUOTE) return "text";
  return kind === DOT && spelling.length > 1 && isDigit(spelling.charCodeAt(1)) ? "number" : "mark";
}

const MARKS_OF_THREE = new Set(["<<=", ">>=", "...", "->*"]);
const MARKS_OF_TWO = new Set([
  "##",
  "<<",
  ">>",
  "<=",
  ">=",
  "==",
  "!=",
  "&&",
  "||",
  "++",
  "--",
  "+=",
  "-=",
  "*=",
  "/=",
  "%=",
  "&=",
  "|=",
  "^=",
  "->",
  "::",
  ".*",
]);

function lengthOfMark(text: string, at: number): number {
  const next = text.charCodeAt(at + 1);
  // Only these can be second in a longer mark: # & * + - . : < = > |
  if (!SECOND.has(next)) return 1;
  if (MARKS_OF_THREE.has(text.slice(at, at + 3))) return 3;
  return MARKS_OF_TWO.has(text.slice(at, at + 2)) ? 2 : 1;
}

const SECOND = new Set([0x23, 0x26, 0x2a, 0x2b, 0x2d, 0x2e, 0x3a, 0x3c, 0x3d, 0x3e, 0x7c]);
