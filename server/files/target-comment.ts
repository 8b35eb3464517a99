/**
 * Which board and clock a sketch's own comments ask for. Read before the preprocessor runs, since the board decides its macros:
 * so a look at the plain text, in which `#if 0` is the only condition that counts.
 */
import type { TargetSource } from "../../shared-model/target.js";
import { readComment } from "../../shared-model/wants/read-comment.js";
import type { SourceFile } from "../preprocess/source.js";

/** The first board and the first clock named in the files, in their order. */
export function targetInComments(files: readonly SourceFile[]): TargetSource | undefined {
  let found: TargetSource | undefined;
  for (const file of files) {
    // Most files have none: not worth a walk over every character.
    if (file.kind !== "sketch" || !file.text.includes("for pulsewright:")) continue;
    for (const { text } of commentsIn(file.text)) {
      for (const comment of readComment(text)) {
        if (comment.kind !== "settings") continue;
        const { board, clockHz, tolerance, builtFor } = comment;
        found = {
          board: found?.board ?? board,
          ...clockOf(found, { clockHz, tolerance }),
          fCpu: found?.fCpu ?? builtFor,
        };
      }
    }
  }
  return found;
}

/** A clock and its tolerance are one statement: a later comment does not change half of it. */
function clockOf(earlier: TargetSource | undefined, now: TargetSource): Pick<TargetSource, "clockHz" | "tolerance"> {
  return earlier?.clockHz === undefined
    ? { clockHz: now.clockHz, tolerance: now.tolerance }
    : { clockHz: earlier.clockHz, tolerance: earlier.tolerance };
}

/** Every comment outside `#if 0`, with its offset. Quotes are skipped, so that a URL in a string is none. */
export function commentsIn(text: string): { readonly start: number; readonly text: string }[] {
  const found: { start: number; text: string }[] = [];
  /** How many conditionals deep we are inside an `#if 0`; 0 outside. */
  let dead = 0;
  let lineStart = true;
  let at = 0;
  while (at < text.length) {
    const unit = text[at]!;
    if (lineStart && unit === "#") {
      dead = deadAfter(directiveAt(text, at), dead);
      lineStart = false;
      at++;
    } else if (unit === "/" && (text[at + 1] === "/" || text[at + 1] === "*")) {
      const end = endOfComment(text, at);
      if (dead === 0) found.push({ start: at, text: text.slice(at, end) });
      at = end;
    } else if (unit === '"' || unit === "'") {
      at = endOfQuote(text, at);
      lineStart = false;
    } else {
      if (unit === "\n") lineStart = true;
      else if (unit !== " " && unit !== "\t" && unit !== "\r") lineStart = false;
      at++;
    }
  }
  return found;
}

function directiveAt(text: string, at: number): string {
  return /^#[^\S\n]*(\w+[^\S\n]*\w*)/.exec(text.slice(at, at + 80))?.[1]?.replace(/\s+/g, " ") ?? "";
}

function deadAfter(directive: string, dead: number): number {
  const word = directive.split(" ")[0];
  if (dead === 0) return directive === "if 0" || directive === "if false" ? 1 : 0;
  if (word === "if" || word === "ifdef" || word === "ifndef") return dead + 1;
  if (word === "endif") return dead - 1;
  return dead === 1 && (word === "else" || word === "elif") ? 0 : dead;
}

function endOfComment(text: string, at: number): number {
  if (text[at + 1] === "*") {
    const end = text.indexOf("*/", at + 2);
    return end < 0 ? text.length : end + 2;
  }
  const end = text.indexOf("\n", at);
  return end < 0 ? text.length : end;
}

/** Just behind the closing quote, or the end of the line where there is none. */
function endOfQuote(text: string, at: number): number {
  const quote = text[at];
  for (let end = at + 1; end < text.length; end++) {
    const unit = text[end];
    if (unit === "\\") end++;
    else if (unit === quote) return end + 1;
    else if (unit === "\n") return end;
  }
  return text.length;
}
