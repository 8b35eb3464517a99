/** Asks the built command line for its reports: the oracle sees the product from outside only. */
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import type { BoardId } from "./compile.js";
import type { Report, ReportedSketch } from "./report-shape.js";

/** Reports of many sketches of one board in few runs of the command line. */
export function reports(
  root: string,
  board: BoardId,
  paths: readonly string[],
  more: readonly string[] = [],
): Map<string, ReportedSketch | string> {
  const found = new Map<string, ReportedSketch | string>();
  const ask = (batch: readonly string[]): void => {
    const args = [join(root, "dist/pulsewright.js"), "report", ...batch, "--board", board, "--format", "json", ...more];
    const { status, stdout, stderr } = spawnSync(process.execPath, args, {
      cwd: root,
      encoding: "utf8",
      maxBuffer: 1 << 30,
      timeout: 30_000 + 5_000 * batch.length,
    });
    let report: Report | null = null;
    if (status === 0 || status === 1) {
      try {
        report = JSON.parse(stdout) as Report;
      } catch {
        report = null;
      }
    }
    if (report !== null) {
      for (const sketch of report.sketches) {
        // A folder given as PATH is named by its main file.
        const asked = batch.find((path) => sketch.path === path || sketch.path.startsWith(`${path}/`));
        if (asked !== undefined) found.set(asked, sketch);
      }
    } else if (batch.length === 1) {
      found.set(batch[0]!, `the command line ended with ${status}: ${stderr.trim().split("\n").slice(-3).join(" ")}`);
    } else {
      for (const path of batch) ask([path]);
    }
  };
  for (let at = 0; at < paths.length; at += 100) ask(paths.slice(at, at + 100));
  return found;
}
