/** Every marked sketch under test/ as one named test: its marks, its fixes, and the checks that nobody wrote. */
import { readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { describe, expect, it } from "vitest";
import { hover } from "../../server/features/hover.js";
import { ALL_HINTS, inlayHints } from "../../server/features/inlay-hints.js";
import { findingsOf } from "../../server/findings/findings.js";
import { analysedFile } from "./analysed-sketch.js";
import { checkFixes } from "./check-fixes.js";
import { checkMarks, showFinding } from "./check-marks.js";
import { rewriteMarks } from "./rewrite-marks.js";

const root = join(__dirname, "..");
/** Set by `npm run marks`; ignored in CI. */
const rewrite = process.env["PULSEWRIGHT_MARKS"] === "write" && process.env["CI"] === undefined;
const folders = ["findings", "signals", "hover", "features"];

function sketchesUnder(folder: string): string[] {
  const found: string[] = [];
  for (const name of readdirSync(folder).sort()) {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) found.push(...sketchesUnder(path));
    else if (name.endsWith(".ino")) found.push(path);
  }
  return found;
}

for (const folder of folders) {
  describe(folder, () => {
    for (const file of sketchesUnder(join(root, folder))) {
      const name = relative(root, file);
      it(name, async () => {
        const sketch = await analysedFile(file, name.split("/").at(-1)!);
        const failures: string[] = [];
        const onFailure = (id: string, error: unknown) => failures.push(`${id} threw ${String(error)}`);
        const findings = findingsOf(sketch.analysis, { onFailure });
        if (rewrite) {
          const source = readFileSync(file, "utf8");
          const now = rewriteMarks(source, sketch, findings);
          if (now !== source) writeFileSync(file, now);
          return;
        }
        const { missing, surplus } = checkMarks(sketch, findings);
        const fixes = checkFixes(sketch, findings, file);
        expect({ missing, surplus, fixes, failures }).toEqual({ missing: [], surplus: [], fixes: [], failures: [] });

        for (const id of new Set(findings.map((finding) => finding.id))) {
          const without = findingsOf(sketch.analysis, { off: new Set([id]) });
          expect(without.filter((finding) => finding.id === id)).toEqual([]);
        }
        for (let offset = 0; offset <= sketch.text.length; offset += 1) {
          const found = hover(sketch.analysis, sketch.path, offset);
          if (found !== null) expect(found.span.start <= offset && offset <= found.span.end).toBe(true);
        }
        for (const hint of inlayHints(sketch.analysis, sketch.path, { start: 0, end: sketch.text.length }, ALL_HINTS)) {
          expect(hint.text).not.toContain("\n");
        }
      });
    }
  });
}

describe("quiet", () => {
  for (const file of sketchesUnder(join(root, "quiet"))) {
    const name = relative(root, file);
    it(name, async () => {
      const sketch = await analysedFile(file, name.split("/").at(-1)!);
      const findings = findingsOf(sketch.analysis).filter((finding) => finding.severity !== "note");
      expect(findings.map((finding) => showFinding(sketch.text, finding))).toEqual([]);
    });
  }
});
