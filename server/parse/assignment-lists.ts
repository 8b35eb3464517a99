/**
 * `(a = b, c)`: the grammar reads an assignment in parentheses only where they close right behind it. Such a list is parsed
 * with parentheses around its first assignment (`put-in-marks.ts`).
 */
import type { Mark } from "./put-in-marks.js";

interface Open {
  readonly at: number;
  readonly isList: boolean;
  assigns: boolean;
  over: boolean;
}

const [QUOTE, APOSTROPHE, BACKSLASH] = [0x22, 0x27, 0x5c];
const [OPEN, CLOSE, COMMA, EQUALS] = [0x28, 0x29, 0x2c, 0x3d];
const OPENING = new Set([OPEN, 0x5b, 0x7b]);
const CLOSING = new Set([CLOSE, 0x5d, 0x7d]);
/** `=`, `!`, `<`, `>` before an `=`: a comparison, except for shifts. */
const COMPARING = new Set([EQUALS, 0x21, 0x3c, 0x3e]);

/** Parentheses around the first elements of such lists. */
export function listMarks(text: string): Mark[] {
  return firstAssignments(text).flatMap(({ start, end }) => [
    { at: start, mark: "(" },
    { at: end, mark: ")" },
  ]);
}

/** The first elements of lists in parentheses, where they are assignments. */
function firstAssignments(text: string): { start: number; end: number }[] {
  const found: { start: number; end: number }[] = [];
  const open: Open[] = [];
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === QUOTE || code === APOSTROPHE) at = behindText(text, at, code);
    else if (OPENING.has(code))
      open.push({ at, isList: code === OPEN && isGrouping(text, at), assigns: false, over: false });
    else if (CLOSING.has(code)) open.pop();
    else {
      const list = open[open.length - 1];
      if (list === undefined || !list.isList || list.over) continue;
      if (code === EQUALS) {
        if (text.charCodeAt(at + 1) === EQUALS) at++;
        else if (isAssigning(text, at)) list.assigns = true;
      } else if (code === COMMA) {
        if (list.assigns) found.push({ start: list.at + 1, end: at });
        list.over = true;
      }
    }
  }
  return found;
}

function isAssigning(text: string, at: number): boolean {
  const before = text.charCodeAt(at - 1);
  return !COMPARING.has(before) || (before !== EQUALS && before !== 0x21 && text.charCodeAt(at - 2) === before);
}

/** Whether the parenthesis opens a value, as opposed to arguments, parameters or the head of a statement. */
function isGrouping(text: string, at: number): boolean {
  const before = /(\w+|\S)\s*$/.exec(text.slice(Math.max(0, at - 40), at))?.[1] ?? ";";
  return /^(?:return|case|while|else|do)$/.test(before) || !/^[\w\]"']/.test(before);
}

function behindText(text: string, start: number, quote: number): number {
  let at = start + 1;
  // An apostrophe between digits is none that opens a character.
  if (quote === APOSTROPHE && /\w/.test(text[start - 1] ?? "") && /\w/.test(text[at] ?? "")) return start;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === BACKSLASH) at++;
    else if (code === quote || code === 0x0a) return at;
  }
  return at;
}
