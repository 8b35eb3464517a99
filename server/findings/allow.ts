/** `for pulsewright: allow ID because …`: which stretches of source a comment excuses from which finding. */
import type { Span } from "../../shared-model/span.js";
import type { Analysis } from "../analysis.js";
import { lineOf, statementAfter } from "../edits/source-text.js";

export interface Allowance {
  readonly id: string;
  readonly path: string;
  /** Offsets, end exclusive. A finding that starts inside is excused. */
  readonly stretches: readonly { readonly start: number; readonly end: number }[];
}

/** Each comment excuses the line on which it stands where code stands beside it, else the line below and the next statement. */
export function allowances(analysis: Analysis): readonly Allowance[] {
  const found: Allowance[] = [];
  for (const { comment, span } of analysis.comments) {
    if (comment.kind !== "settings" || comment.allow === undefined || comment.allow.length === 0) continue;
    const file = analysis.files.find((candidate) => candidate.path === span.path);
    if (file === undefined) continue;
    const line = lineOf(file.text, span.start);
    const codeBefore = file.text.slice(line.start, span.start).trim() !== "";
    const codeAfter = file.text.slice(span.end, lineOf(file.text, span.end).end).trim() !== "";
    const stretch = codeBefore || codeAfter ? line : below(file.text, span.end);
    for (const allowed of comment.allow) found.push({ id: allowed.id, path: span.path, stretches: [stretch] });
  }
  return found;
}

/** The next line that is not blank, be it a comment, and the next statement: from the one's beginning to the later end. */
function below(text: string, end: number): { readonly start: number; readonly end: number } {
  const statement = statementAfter(text, end);
  const gap = /^[^\S\r\n]*\r?\n\s*/.exec(text.slice(end));
  const start = end + (gap?.[0].length ?? 0);
  const lines = [lineOf(text, start).end, lineOf(text, statement.start).end, statement.end];
  return { start, end: Math.max(...lines) };
}

export function isAllowed(allowed: readonly Allowance[], id: string, span: Span): boolean {
  return allowed.some(
    (one) =>
      one.id === id &&
      one.path === span.path &&
      one.stretches.some((stretch) => span.start >= stretch.start && span.start < stretch.end),
  );
}
