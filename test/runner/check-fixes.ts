/** Fixes marked in a sketch: made, proved, and compared with the text that must come out. */
import { existsSync, readFileSync } from "node:fs";
import { applyEdits } from "../../server/edits/apply.js";
import type { Finding, Fix } from "../../server/findings/finding.js";
import { proveFix } from "../../server/findings/prove.js";
import type { AnalysedSketch } from "./analysed-sketch.js";
import { readMarks } from "./marks.js";

/** What is wrong with the marked fixes of a sketch, one line each. `file` is the sketch's place on disk. */
export function checkFixes(sketch: AnalysedSketch, findings: readonly Finding[], file: string): readonly string[] {
  const wrong: string[] = [];
  for (const mark of sketch.marks) {
    if (mark.kind !== "fix" && mark.kind !== "refused fix") continue;
    const found = offered(findings, mark.finding, mark.title);
    if (found === undefined) {
      wrong.push(`line ${mark.line}: no fix "${mark.title}"; offered: ${titles(findings, mark.finding)}`);
      continue;
    }
    const proof = proveFix(sketch.input, sketch.analysis, found.finding, found.fix);
    if (mark.kind === "refused fix") {
      if (!("refused" in proof)) wrong.push(`line ${mark.line}: fix "${mark.title}" was not refused`);
      continue;
    }
    if ("refused" in proof) {
      wrong.push(`line ${mark.line}: fix "${mark.title}" does not keep its promise: ${proof.refused}`);
      continue;
    }
    const fixedFile = file.replace(/\.ino$/, ".fixed.ino");
    if (!existsSync(fixedFile)) {
      wrong.push(
        `line ${mark.line}: there is no ${fixedFile.split("/").at(-1)}; it would hold:\n${solid(applyEdits(sketch.text, proof.edits))}`,
      );
      continue;
    }
    const expected = solid(readMarks(readFileSync(fixedFile, "utf8")).text);
    const got = solid(applyEdits(sketch.text, proof.edits));
    if (got !== expected) wrong.push(`line ${mark.line}: fix "${mark.title}" gives\n${got}\n    not\n${expected}`);
  }
  return [...wrong, ...unkept(sketch, findings)];
}

/** Fixes that are offered and do not keep their promise, unless a mark says that they are refused. */
function unkept(sketch: AnalysedSketch, findings: readonly Finding[]): readonly string[] {
  const expected = new Set(sketch.marks.flatMap((mark) => (mark.kind === "refused fix" ? [mark.title] : [])));
  const wrong: string[] = [];
  for (const finding of findings) {
    for (const fix of finding.fixes) {
      if (expected.has(fix.title)) continue;
      const proof = proveFix(sketch.input, sketch.analysis, finding, fix);
      if ("refused" in proof) wrong.push(`${finding.id}: fix "${fix.title}" is offered, but ${proof.refused}`);
    }
  }
  return wrong;
}

function offered(
  findings: readonly Finding[],
  id: string | null,
  title: string,
): { finding: Finding; fix: Fix } | undefined {
  for (const finding of findings) {
    const fix =
      id === null || finding.id === id ? finding.fixes.find((candidate) => candidate.title === title) : undefined;
    if (fix !== undefined) return { finding, fix };
  }
  return undefined;
}

function titles(findings: readonly Finding[], id: string | null): string {
  return (
    findings
      .filter((finding) => id === null || finding.id === id)
      .flatMap((finding) => finding.fixes.map((fix) => `"${fix.title}"`))
      .join(", ") || "none"
  );
}

/** Without blank lines and blanks at line ends, where marks stood. */
function solid(text: string): string {
  return text
    .split(/\r?\n/)
    .map((line) => line.trimEnd())
    .filter((line) => line !== "")
    .join("\n");
}
