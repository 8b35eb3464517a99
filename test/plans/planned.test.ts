/**
 * Sketches with a want, and what the best plan makes of them: `<name>.ino` beside `<name>.planned.ino`, which is exactly the
 * edited text, or `<name>.refused.txt`, which is the reason why there is none. A first line `// plan N` takes another plan
 * than the first. Whatever comes out is analysed again: the want is met as promised, and no error is found in it.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { applyToSources } from "../../server/edits/apply.js";
import { findingsOf } from "../../server/findings/findings.js";
import { wantVerdicts } from "../../server/look/judged-wants.js";
import { plansForWant } from "../../server/plans/plans-for-want.js";
import { analysedText } from "../runner/analysed-sketch.js";

const folder = join(__dirname, "sketches");
const sketches = readdirSync(folder).filter(
  (name) => /^[\w-]+\.(?:ino|cpp)$/.test(name) && !name.includes(".planned."),
);

describe("plans as edits", () => {
  test.each(sketches)("%s", async (name) => {
    const text = readFileSync(join(folder, name), "utf8");
    const { input, analysis } = await analysedText(text, name);
    const placed = analysis.comments.find(({ comment }) => comment.kind === "want");
    expect(placed, "the sketch has a want").toBeDefined();
    const answer = plansForWant(input, analysis, placed!);
    const which = Number(/^\/\/ plan (\d+)/.exec(text)?.[1] ?? 1) - 1;
    const plan = answer.plans[which];
    const refused = join(folder, name.replace(/\.\w+$/, ".refused.txt"));
    const planned = join(folder, name.replace(/\.(\w+)$/, ".planned.$1"));
    if (plan === undefined) {
      if (process.env["PULSEWRIGHT_PLANNED"] === "write" && !existsSync(planned))
        writeFileSync(refused, `${answer.why}\n`);
      expect(existsSync(refused), `no plan: ${answer.why}`).toBe(true);
      expect(`${answer.why}\n`).toBe(readFileSync(refused, "utf8"));
      return;
    }
    expect(existsSync(refused), `there is a plan: ${plan.title}`).toBe(false);
    const sources = applyToSources(input.sources, plan.edits);
    const edited = [...sources.tabs, ...sources.units][0]!.text;
    if (process.env["PULSEWRIGHT_PLANNED"] === "write") writeFileSync(planned, edited);
    expect(edited).toBe(readFileSync(planned, "utf8"));
    const { analysis: after } = await analysedText(edited, name);
    for (const output of plan.plan.outputs) {
      const judged = wantVerdicts(after).filter(({ pin }) => pin?.port === output.port);
      if (plan.dutyToWrite === null) expect(judged.map(({ met }) => met)).toContain(output.judgement.met);
      const pulses = after.pins
        .find(({ port }) => port === output.port)!
        .signals.filter(({ kind, regime }) => kind === "pulse" && regime === "running");
      expect(pulses.length).toBeGreaterThan(0);
      for (const pulse of pulses)
        expect(pulse.frequencyHz).toEqual({ min: output.frequencyHz, max: output.frequencyHz });
    }
    const errors = (of: typeof analysis) => findingsOf(of).filter(({ severity }) => severity === "error");
    const before = errors(analysis).map(({ id }) => id);
    expect(errors(after).filter(({ id }) => !before.includes(id))).toEqual([]);
  });
});
