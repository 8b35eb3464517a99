/**
 * `npm run marks`: brings exact and vague marks up to what the tool says today, never `within` or `todo`, and never in CI.
 * The result is read and judged by a person: a rewritten mark is a claim that somebody stands for.
 */

import { lineOf } from "../../server/edits/source-text.js";
import type { Finding } from "../../server/findings/finding.js";
import type { AnalysedSketch } from "./analysed-sketch.js";
import { signalsOf } from "./check-marks.js";
import type { Mark } from "./marks.js";
import { showSignal } from "./signal-claim.js";

/** The marked source with carets moved and signals replaced. */
export function rewriteMarks(source: string, sketch: AnalysedSketch, findings: readonly Finding[]): string {
  const lines = source.split("\n");
  const done = new Set<string>();
  const dropped = new Set<number>();
  for (const mark of sketch.marks) {
    if (mark.claim === "within" || mark.claim === "todo") continue;
    if (mark.kind === "finding" && mark.at !== null) moveCarets(lines, mark, sketch, findings);
    if (mark.kind !== "signal") continue;
    const key = `${mark.pin} ${mark.regime}`;
    if (done.has(key)) {
      dropped.add(mark.line - 1);
      continue;
    }
    done.add(key);
    const suffix = mark.claim === "vague" ? "    vague" : "";
    const shown = [...new Set(signalsOf(sketch.analysis, mark.pin, mark.regime).map(showSignal))];
    if (shown.length > 0) lines[mark.line - 1] = shown.map((says) => `//= signal ${key}: ${says}${suffix}`).join("\n");
  }
  return lines.filter((_, index) => !dropped.has(index)).join("\n");
}

function moveCarets(
  lines: string[],
  mark: Extract<Mark, { kind: "finding" }>,
  sketch: AnalysedSketch,
  findings: readonly Finding[],
): void {
  if (mark.at === null) return;
  const code = lineOf(sketch.text, mark.at.start);
  const fits = findings.filter(
    (finding) =>
      finding.id === mark.id &&
      finding.span.start >= code.start &&
      finding.span.end <= code.end &&
      mark.quotes.every((quote) => finding.message.includes(quote)),
  );
  const found = fits[0];
  if (found === undefined) return;
  const column = found.span.start - code.start;
  const line = lines[mark.line - 1]!;
  if (column < 3) return;
  const rest = line.slice(line.indexOf("^")).replace(/^\^+/, "");
  lines[mark.line - 1] = `//=${" ".repeat(column - 3)}${"^".repeat(found.span.end - found.span.start)}${rest}`;
}
