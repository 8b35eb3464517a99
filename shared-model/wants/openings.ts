/**
 * Which lines of a comment are addressed to the tool. A line is ours only when it begins, right after the comment's
 * `//`, `///`, `/*` or a line's `*`, with one of three lower-case openings; nothing else is ever read.
 */
import type { Stretch } from "./comment.js";

export interface Addressed {
  readonly opening: "want" | "reading" | "settings";
  /** From the opening's first letter to the end of the line, trailing blanks and the closing mark left out. */
  readonly at: Stretch;
  /** Just behind `wants`, `bench reads` or `for pulsewright:`. */
  readonly rest: number;
}

const lineStart = /^[ \t]*(?:\/\/{1,2}(?!\/)|\/\*{1,2}(?!\*)|\*(?![*/]))[ \t]*/;
const name = "[A-Za-z_0-9]+(?:::[A-Za-z_0-9]+)*";
// Several pins: `D9 and D10`, `D9, D10`. What a person may write in place of these is ours as well where all of it is pins
// of boards (`D9 & D10`), so that it is not passed over in silence.
const names = `${name}(?:[ \\t]*(?:,[ \\t]*and\\b|,|\\band\\b)[ \\t]*${name})*`;
const surePin = "(?:D\\d{1,3}|A\\d{1,2}|P[A-L][0-7])";
const surePins = `${surePin}(?:(?:[ \\t]*[,&+/;][ \\t]*|[ \\t]+)(?:(?:and|or)[ \\t]+)?${surePin})*`;

const lineOpenings = [
  { opening: "want", pattern: new RegExp(`^wants[ \\t]+(?=(?:${names}|${surePins})[ \\t]*:(?!:))`) },
  { opening: "reading", pattern: /^bench[ \t]+reads[ \t]+(?=[A-Za-z_0-9]+[ \t]*(?:[^A-Za-z_0-9 \t]|[ \t]+|$))/ },
  { opening: "settings", pattern: /^for[ \t]+pulsewright:/ },
] as const;

/** The lines of a comment's raw text that are ours, in order. */
export function addressedLines(text: string): Addressed[] {
  // Almost no comment is: look for the words before looking at lines.
  if (!/\b(?:wants|reads|pulsewright)\b/.test(text)) {
    return [];
  }
  const found: Addressed[] = [];
  const block = text.startsWith("/*");
  let start = 0;
  for (const line of text.split(/\r\n|\r|\n/)) {
    const at = start;
    start += line.length;
    start += text.startsWith("\r\n", start) ? 2 : 1;
    const prefix = lineStart.exec(line);
    // A line comment has one line; in a block only the opening and lines that begin with a star count.
    if (prefix === null || (!block && at > 0)) {
      continue;
    }
    const body = line.slice(prefix[0].length);
    for (const { opening, pattern } of lineOpenings) {
      const match = pattern.exec(body);
      if (match !== null) {
        const begin = at + prefix[0].length;
        const end = begin + trimmedLength(body, block);
        found.push({ opening, at: { start: begin, end }, rest: begin + match[0].length });
      }
    }
  }
  return found;
}

/** Length of the line without the comment's end and without blanks before it. */
function trimmedLength(body: string, block: boolean): number {
  const closed = block ? body.indexOf("*/") : -1;
  return (closed < 0 ? body : body.slice(0, closed)).trimEnd().length;
}
