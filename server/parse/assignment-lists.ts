/**
 * `(a = b, c)`: the grammar reads an assignment in parentheses only where they close right behind it. Such a list is parsed
 * with parentheses around its first assignment, and every offset is counted back to the text without them.
 */
import type { SyntaxNode } from "./syntax.js";
import type { Found } from "./walk.js";

export interface Bracketed {
  readonly text: string;
  /** Offsets in the bracketed text of what was put in, ascending. */
  readonly inserted: readonly number[];
}

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

export function bracketed(text: string): Bracketed {
  const stretches = firstAssignments(text);
  if (stretches.length === 0) return { text, inserted: [] };
  const marks = stretches.flatMap(({ start, end }) => [
    { at: start, mark: "(" },
    { at: end, mark: ")" },
  ]);
  marks.sort((a, b) => a.at - b.at);
  const inserted: number[] = [];
  let made = "";
  let kept = 0;
  for (const { at, mark } of marks) {
    made += text.slice(kept, at);
    inserted.push(made.length);
    made += mark;
    kept = at;
  }
  return { text: made + text.slice(kept), inserted };
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

/** The tree with every offset as it is in the text without the brackets. */
export function unbracketed(found: Found, inserted: readonly number[]): Found {
  if (inserted.length === 0) return found;
  const back = (offset: number): number => {
    let [low, high] = [0, inserted.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (inserted[middle]! < offset) low = middle + 1;
      else high = middle;
    }
    return offset - low;
  };
  const moved = (node: SyntaxNode): SyntaxNode => ({
    ...node,
    start: back(node.start),
    end: back(node.end),
    children: node.children.map(moved),
  });
  const errors = found.errors.map((error) => ({ ...error, start: back(error.start), end: back(error.end) }));
  return { ...found, root: moved(found.root), errors };
}
