/**
 * Where statements begin in a plain source text, and in which block: found by one walk over brackets, quotes, comments and
 * preprocessor lines. No parsing: who edits by it proves the edited text by analysing it.
 */
import type { Stretch } from "./source-text.js";
import { lineOf } from "./source-text.js";

export interface Block {
  /** Offsets of the braces; the whole text for the outermost block. */
  readonly open: number;
  readonly close: number;
  readonly parent: number | null;
  /** The name before the brackets where the block is a function's body; null for any other. */
  readonly functionName: string | null;
  /** Where the statement that owns the block begins. */
  readonly ownerStart: number;
}

export interface StatementMap {
  readonly blocks: readonly Block[];
  /** Offset of each statement that stands for itself → index of its block. What hangs on an `if` without braces is none. */
  readonly starts: ReadonlyMap<number, number>;
}

interface OpenBlock {
  readonly index: number;
  readonly brackets: number;
}

export function statementMap(text: string): StatementMap {
  const blocks: {
    open: number;
    close: number;
    parent: number | null;
    functionName: string | null;
    ownerStart: number;
  }[] = [{ open: -1, close: text.length, parent: null, functionName: null, ownerStart: 0 }];
  const starts = new Map<number, number>();
  const stack: OpenBlock[] = [{ index: 0, brackets: 0 }];
  let brackets = 0;
  let atStart = true;
  let lastStart = 0;
  let at = 0;
  while (at < text.length) {
    const skipped = skipSilent(text, at);
    if (skipped > at) {
      at = skipped;
      continue;
    }
    const character = text[at]!;
    const here = stack[stack.length - 1]!;
    if (character === "}") {
      blocks[here.index]!.close = at;
      if (stack.length > 1) stack.pop();
      brackets = here.brackets;
      atStart = brackets === 0;
    } else {
      if (atStart && character !== "{") {
        starts.set(at, here.index);
        lastStart = at;
        atStart = false;
      }
      if (character === "{") {
        const header = text.slice(lastStart, at);
        const functionName = brackets === 0 && isOpenAir(blocks, here.index) ? nameOfFunction(header) : null;
        blocks.push({ open: at, close: text.length, parent: here.index, functionName, ownerStart: lastStart });
        stack.push({ index: blocks.length - 1, brackets });
        brackets = 0;
        atStart = true;
      } else if (character === "(" || character === "[") brackets += 1;
      else if (character === ")" || character === "]") brackets -= 1;
      else if (character === ";" && brackets <= 0) atStart = true;
      else if (character === '"' || character === "'") {
        at = endOfQuoted(text, at);
        continue;
      }
    }
    at += 1;
  }
  return { blocks, starts };
}

/** The body of a function by name, the first that there is. */
export function bodyOf(map: StatementMap, name: string): Block | undefined {
  return map.blocks.find((block) => block.functionName === name);
}

/** Starts of the statements that stand directly in a block, ascending. */
export function statementsIn(map: StatementMap, block: Block): readonly number[] {
  const index = map.blocks.indexOf(block);
  return [...map.starts].filter(([, owner]) => owner === index).map(([start]) => start);
}

/** The function in whose body, directly and not in an inner block, a statement stands. */
export function functionAround(map: StatementMap, start: number): Block | undefined {
  const index = map.starts.get(start);
  const block = index === undefined ? undefined : map.blocks[index];
  return block?.functionName === null ? undefined : block;
}

/** Blanks, comments and preprocessor lines. */
function skipSilent(text: string, at: number): number {
  if (/\s/.test(text[at]!)) return at + 1;
  if (text.startsWith("//", at)) return Math.max(at + 1, lineOf(text, at).end);
  if (text.startsWith("/*", at)) {
    const close = text.indexOf("*/", at + 2);
    return close < 0 ? text.length : close + 2;
  }
  if (text[at] === "#" && /^[ \t]*$/.test(text.slice(lineOf(text, at).start, at))) return endOfDirective(text, at);
  return at;
}

function endOfDirective(text: string, at: number): number {
  let line: Stretch = lineOf(text, at);
  while (text[line.end - 1] === "\\" && line.end < text.length) {
    const next = text[line.end] === "\r" && text[line.end + 1] === "\n" ? line.end + 2 : line.end + 1;
    if (next >= text.length) return text.length;
    line = lineOf(text, next);
  }
  return Math.max(at + 1, line.end);
}

function endOfQuoted(text: string, at: number): number {
  const quote = text[at];
  let end = at + 1;
  while (end < text.length && text[end] !== quote && text[end] !== "\n") end += text[end] === "\\" ? 2 : 1;
  return Math.min(end + 1, text.length);
}

/** Outermost, or inside nothing but namespaces, classes and `extern "C"`: no function around. */
function isOpenAir(blocks: readonly { parent: number | null; functionName: string | null }[], index: number): boolean {
  for (let at: number | null = index; at !== null; at = blocks[at]!.parent) {
    if (blocks[at]!.functionName !== null) return false;
  }
  return true;
}

function nameOfFunction(header: string): string | null {
  const plain = header.replace(/\/\*[\s\S]*?\*\/|\/\/[^\n\r]*/g, " ");
  if (/^\s*(?:if|for|while|switch|do|else)\b/.test(plain) || /=\s*$/.test(plain)) return null;
  return /([A-Za-z_]\w*)\s*\(/.exec(plain)?.[1] ?? null;
}
