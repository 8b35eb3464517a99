/**
 * What tells a finding again in a later state of the sketch: no line number, no path, no time. Two hashes, both of text
 * alone.
 */

/** FNV-1a over 64 bits (the authors' published parameters), as 16 hex digits. */
export function hashOf(text: string): string {
  let hash = 0xcbf29ce484222325n;
  for (let at = 0; at < text.length; at++) {
    hash ^= BigInt(text.charCodeAt(at));
    hash = BigInt.asUintN(64, hash * 0x100000001b3n);
  }
  return hash.toString(16).padStart(16, "0");
}

/** A statement without what formatting and remarks change. */
export function normalised(statement: string): string {
  return statement
    .replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, " ")
    .replace(/\s+/g, " ")
    .replace(/ ?([^\w ]) ?/g, "$1")
    .trim();
}

const BLOCK = 100;
const FACTOR = 37n;

/**
 * For each line of a file (from 1) the hash that consumers of SARIF know as `primaryLocationLineHash`: of the hundred
 * characters from the line's start on, blanks left out, with a counter for lines that begin alike. From memory; the test's
 * values are the published ones.
 */
export function lineHashes(text: string): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  const counts = new Map<string, number>();
  const characters = significant(text);
  let outgoing = 1n;
  for (let power = 0; power < BLOCK; power++) outgoing = BigInt.asUintN(64, outgoing * FACTOR);
  let hash = 0n;
  const window = characters.map(({ code }) => code);
  for (let at = 0; at < characters.length + BLOCK; at++) {
    // The hash of what lies behind: `BLOCK` characters from `first` on.
    const first = at - BLOCK;
    const line = first >= 0 ? characters[first]!.startsLine : null;
    if (line !== null) {
      const shown = hash.toString(16);
      const count = (counts.get(shown) ?? 0) + 1;
      counts.set(shown, count);
      found.set(line, `${shown}:${count}`);
    }
    const leaving = BigInt(first >= 0 ? window[first]! : 0);
    hash = BigInt.asUintN(64, hash * FACTOR + BigInt(window[at] ?? 0) - outgoing * leaving);
  }
  return found;
}

interface Significant {
  readonly code: number;
  /** The line's number, where the character is the first of one. */
  readonly startsLine: number | null;
}

const END_OF_FILE = 65_535;

/** Every character but blanks, tabs and the second half of a line's end, with an end mark. */
function significant(text: string): Significant[] {
  const made: Significant[] = [];
  let line = 0;
  let starts = true;
  const push = (code: number): void => {
    if (starts) line++;
    made.push({ code, startsLine: starts ? line : null });
    starts = code === 10;
  };
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 32 || code === 9 || (code === 10 && text.charCodeAt(at - 1) === 13)) continue;
    push(code === 13 ? 10 : code);
  }
  push(END_OF_FILE);
  return made;
}
