/** Offsets of a text ↔ line and column, both from 0, columns in UTF-16 units. Lines end at \n, \r\n or a lone \r. */

export interface TextPosition {
  readonly line: number;
  readonly character: number;
}

export interface LineIndex {
  /** Clamped to the text. */
  positionAt(offset: number): TextPosition;
  /** Clamped: a column past the end of its line gives the line's end, a line past the last the text's end. */
  offsetAt(position: TextPosition): number;
  readonly lines: number;
}

export function lineIndex(text: string): LineIndex {
  const starts = [0];
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    if (unit === LINE_FEED || (unit === CARRIAGE_RETURN && text.charCodeAt(at + 1) !== LINE_FEED)) starts.push(at + 1);
  }
  const endOfLine = (line: number): number => {
    let end = starts[line + 1] ?? text.length;
    while (end > starts[line]! && isBreak(text.charCodeAt(end - 1))) end--;
    return end;
  };
  return {
    lines: starts.length,
    positionAt(offset) {
      const clamped = Math.max(0, Math.min(offset, text.length));
      let low = 0;
      let high = starts.length;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (starts[middle]! <= clamped) low = middle;
        else high = middle;
      }
      return { line: low, character: clamped - starts[low]! };
    },
    offsetAt({ line, character }) {
      if (line < 0) return 0;
      const start = starts[line];
      if (start === undefined) return text.length;
      return Math.min(start + Math.max(0, character), endOfLine(line));
    },
  };
}

const LINE_FEED = 10;
const CARRIAGE_RETURN = 13;

function isBreak(unit: number): boolean {
  return unit === LINE_FEED || unit === CARRIAGE_RETURN;
}
