/** Classes of characters, as C's lexer sees them: one table look-up per character on the hot path. */

export const BLANK = 0;
export const NEWLINE = 1;
export const LETTER = 2;
export const DIGIT = 3;
export const QUOTE = 4;
export const SLASH = 5;
export const HASH = 6;
export const BACKSLASH = 7;
/** A dot may begin a number. */
export const DOT = 8;
export const MARK = 9;

/** By UTF-16 unit below 128. Everything above counts as a letter: what users type there belongs to a word. */
export const CLASS = classes();

function classes(): Uint8Array {
  const table = new Uint8Array(128).fill(MARK);
  for (let code = 0; code <= 0x20; code++) table[code] = BLANK;
  table[0x0a] = NEWLINE;
  for (let code = 0; code < 26; code++) table[0x41 + code] = table[0x61 + code] = LETTER;
  for (let code = 0x30; code <= 0x39; code++) table[code] = DIGIT;
  // A dollar sign is a letter to the compiler in use.
  table[0x5f] = table[0x24] = LETTER;
  table[0x22] = table[0x27] = QUOTE;
  table[0x2f] = SLASH;
  table[0x23] = HASH;
  table[0x5c] = BACKSLASH;
  table[0x2e] = DOT;
  return table;
}

/** 1 where a character may go on an identifier. */
const WORD = new Uint8Array(128);
for (let code = 0; code < 128; code++) WORD[code] = CLASS[code] === LETTER || CLASS[code] === DIGIT ? 1 : 0;

export function isWord(code: number): boolean {
  return code < 128 ? WORD[code] === 1 : code >= 128;
}

export function isDigit(code: number): boolean {
  return code >= 0x30 && code <= 0x39;
}

/** The offset behind a backslash-newline that stands at `at`, or `at` where there is none. Blanks between the two are let pass. */
export function behindSplice(text: string, at: number): number {
  if (text.charCodeAt(at) !== 0x5c) return at;
  for (let next = at + 1; next < text.length; next++) {
    const code = text.charCodeAt(next);
    if (code === 0x0a) return next + 1;
    if (code !== 0x20 && code !== 0x09 && code !== 0x0d) break;
  }
  return at;
}

/** The offset of the newline that ends the logical line (splices go on), or the text's end. */
export function endOfLine(text: string, from: number): number {
  for (let at = from; ; ) {
    const newline = text.indexOf("\n", at);
    if (newline < 0) return text.length;
    let last = newline - 1;
    while (last >= from && isInlineBlank(text.charCodeAt(last))) last--;
    if (last < from || text.charCodeAt(last) !== 0x5c) return newline;
    at = newline + 1;
  }
}

function isInlineBlank(code: number): boolean {
  return code === 0x20 || code === 0x09 || code === 0x0d;
}

/** The offset behind the number (a preprocessing number) that begins at `at`; digit separators included. */
export function behindNumber(text: string, at: number): number {
  let next = at + 1;
  for (; next < text.length; next++) {
    const code = text.charCodeAt(next);
    if (isWord(code)) continue;
    if (code === 0x2e) continue;
    if (code === 0x2b || code === 0x2d) {
      const before = text.charCodeAt(next - 1) | 0x20;
      if (before === 0x65 || before === 0x70) continue;
    } else if (code === 0x27 && isWord(text.charCodeAt(next + 1))) continue;
    break;
  }
  return next;
}

/**
 * The offset behind the string or character literal whose quote stands at `at`. A literal that its line does not close
 * ends before the newline.
 */
export function behindLiteral(text: string, at: number): number {
  const quote = text.charCodeAt(at);
  let next = at + 1;
  for (; next < text.length; next++) {
    const code = text.charCodeAt(next);
    if (code === quote) return next + 1;
    if (code === 0x0a) return next;
    if (code === 0x5c) {
      const behind = behindSplice(text, next);
      next = behind === next ? next + 1 : behind - 1;
    }
  }
  return text.length;
}

/** The offset behind the raw string whose opening quote stands at `at`; where it never closes, the text's end. */
export function behindRawString(text: string, at: number): number {
  const open = text.indexOf("(", at);
  // The standard allows at most 16 characters before the parenthesis.
  if (open < 0 || open - at > 17) return behindLiteral(text, at);
  const close = text.indexOf(`)${text.slice(at + 1, open)}"`, open);
  return close < 0 ? text.length : close + (open - at) + 1;
}

/** Whether an identifier directly before a quote makes the literal raw. */
export function isRawPrefix(text: string, start: number, end: number): boolean {
  if (text.charCodeAt(end - 1) !== 0x52 || end - start > 3) return false;
  const prefix = text.slice(start, end);
  return prefix === "R" || prefix === "LR" || prefix === "uR" || prefix === "UR" || prefix === "u8R";
}
