/** What is refused before parsing: text on which the parser or the stages after it could run out of time or stack. */

/** UTF-16 units. */
export const MAX_TEXT = 4 * 1024 * 1024;
/** Brackets of any sort, open at the same time. */
export const MAX_NESTING = 1000;

/** The reason why this text is not parsed, or null. */
export function refusal(text: string): string | null {
  if (text.length > MAX_TEXT) return `the program's text is longer than ${MAX_TEXT} characters`;
  if (nesting(text) > MAX_NESTING) return `brackets are nested more than ${MAX_NESTING} deep`;
  return null;
}

/** The greatest number of brackets open at once; brackets in string and character literals do not count. */
function nesting(text: string): number {
  let depth = 0;
  let deepest = 0;
  for (let at = 0; at < text.length; at++) {
    switch (text.charCodeAt(at)) {
      case 0x28: // (
      case 0x5b: // [
      case 0x7b: // {
        if (++depth > deepest) deepest = depth;
        break;
      case 0x29:
      case 0x5d:
      case 0x7d:
        if (depth > 0) depth--;
        break;
      case 0x22:
      case 0x27:
        at = endOfLiteral(text, at);
        break;
    }
  }
  return deepest;
}

/** The offset of the closing quote, or `at` itself where the line ends first (a digit separator, a raw string). */
function endOfLiteral(text: string, at: number): number {
  const quote = text.charCodeAt(at);
  for (let end = at + 1; end < text.length; end++) {
    const code = text.charCodeAt(end);
    if (code === quote) return end;
    if (code === 0x5c) end++;
    else if (code === 0x0a) break;
  }
  return at;
}
