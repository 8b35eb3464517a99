/**
 * Marks: comments in a sketch that say what the tool must say about it (house style, section 5). They are blanked out,
 * length kept, before the sketch is analysed, so that nothing can quote its own expectation.
 *
 *     OCR2B = 255;
 *     //=     ^^^ finding duty-past-top "248"
 *     //= signal D3 running: pulse 980.392 Hz, duty 0..100 %     exact
 */

/** `exact`: equal. `within`: what is reported contains this. `vague`: known imprecision. `todo`: fails the day it comes right. */
export type Claim = "exact" | "within" | "vague" | "todo";

interface MarkBase {
  /** The mark's line, from 1. */
  readonly line: number;
  readonly text: string;
  readonly claim: Claim;
  /** The stretch under the carets; null where there are none. */
  readonly at: { readonly start: number; readonly end: number } | null;
}

export type Mark =
  | (MarkBase & { readonly kind: "finding"; readonly id: string; readonly quotes: readonly string[] })
  | (MarkBase & { readonly kind: "hover"; readonly quotes: readonly string[] })
  | (MarkBase & { readonly kind: "hint"; readonly quotes: readonly string[]; readonly lineEnd: number })
  | (MarkBase & { readonly kind: "fix"; readonly title: string; readonly finding: string | null })
  | (MarkBase & { readonly kind: "refused fix"; readonly title: string; readonly finding: string | null })
  | (MarkBase & {
      readonly kind: "signal";
      readonly pin: string;
      readonly regime: "setup" | "running";
      readonly says: string;
    })
  | (MarkBase & {
      readonly kind: "register";
      readonly register: string;
      readonly regime: "setup" | "running";
      readonly says: string;
    })
  | (MarkBase & { readonly kind: "want"; readonly verdict: string });

export interface MarkedSketch {
  /** The text as the tool gets it. */
  readonly text: string;
  readonly marks: readonly Mark[];
  /** Marks that the runner itself cannot read. */
  readonly problems: readonly string[];
}

const OPENING = "//=";

/** Splits a marked sketch into what is analysed and what is expected. */
export function readMarks(source: string): MarkedSketch {
  const marks: Mark[] = [];
  const problems: string[] = [];
  let text = "";
  let code = { start: 0, end: 0 };
  let finding: string | null = null;
  let offset = 0;
  for (const [index, line] of splitLines(source).entries()) {
    const bare = line.replace(/\r?\n$/, "");
    const opening = bare.indexOf(OPENING);
    if (opening < 0 || bare.slice(0, opening).trim() !== "") {
      text += line;
      if (bare.trim() !== "") code = { start: offset, end: offset + bare.length };
    } else {
      text += " ".repeat(bare.length) + line.slice(bare.length);
      const mark = readMark(bare, opening, index + 1, code, finding);
      if (mark === null) problems.push(`line ${index + 1}: not a mark: ${bare.trim()}`);
      else {
        marks.push(mark);
        if (mark.kind === "finding") finding = mark.id;
      }
    }
    offset += line.length;
  }
  return { text, marks, problems };
}

function splitLines(source: string): string[] {
  return source.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function readMark(
  line: string,
  opening: number,
  number: number,
  code: { start: number; end: number },
  finding: string | null,
): Mark | null {
  const match = /^(\s*)(\^+)?\s*(.*)$/.exec(line.slice(opening + OPENING.length));
  if (match === null) return null;
  const carets = match[2];
  const column = opening + OPENING.length + match[1]!.length;
  const at = carets === undefined ? null : { start: code.start + column, end: code.start + column + carets.length };
  const { body, claim } = splitClaim(match[3]!.trim());
  const base = { line: number, text: line.trim(), claim, at };
  const quotes = [...body.matchAll(/"((?:[^"\\]|\\.)*)"/g)].map((quote) => quote[1]!.replace(/\\"/g, '"'));
  const word = /^(\S+)\s*(.*)$/s.exec(body);
  if (word === null) return null;
  const rest = word[2]!;
  switch (word[1]) {
    case "finding": {
      const id = /^[a-z-]+/.exec(rest)?.[0];
      return id === undefined ? null : { ...base, kind: "finding", id, quotes };
    }
    case "hover":
      return at === null ? null : { ...base, kind: "hover", quotes };
    case "hint":
      return { ...base, kind: "hint", quotes, lineEnd: code.end };
    case "fix":
      return quotes.length !== 1 ? null : { ...base, kind: "fix", title: quotes[0]!, finding };
    case "refused":
      return quotes.length < 1 ? null : { ...base, kind: "refused fix", title: quotes[0]!, finding };
    case "want":
      return { ...base, kind: "want", verdict: rest.trim() };
    case "signal":
    case "register": {
      const claimed = /^(\S+)\s+(setup|running):\s*(.*)$/s.exec(rest);
      if (claimed === null) return null;
      const regime = claimed[2] as "setup" | "running";
      return word[1] === "signal"
        ? { ...base, kind: "signal", pin: claimed[1]!, regime, says: claimed[3]! }
        : { ...base, kind: "register", register: claimed[1]!, regime, says: claimed[3]! };
    }
    default:
      return null;
  }
}

function splitClaim(body: string): { readonly body: string; readonly claim: Claim } {
  const match = /^(.*?)\s+(exact|within|vague|todo)$/s.exec(body);
  return match === null ? { body, claim: "exact" } : { body: match[1]!, claim: match[2] as Claim };
}
