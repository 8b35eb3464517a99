/**
 * Random wants on random small sketches: whatever plan is offered, its edit applied gives a sketch that, read from scratch,
 * meets the want as promised. PULSEWRIGHT_WANTS=N runs more of them; what the chip says is in test/oracle/plans.
 */
import { describe, expect, test } from "vitest";
import { applyToSources } from "../../server/edits/apply.js";
import { findingsOf } from "../../server/findings/findings.js";
import { wantVerdicts } from "../../server/look/judged-wants.js";
import { plansForWant } from "../../server/plans/plans-for-want.js";
import { wantedSketch } from "../oracle/plans/random-want.js";
import { analysedText } from "../runner/analysed-sketch.js";

const COUNT = Number(process.env["PULSEWRIGHT_WANTS"] ?? 40);
const FIRST = 7_000;

describe("every plan that is offered", () => {
  let offered = 0;

  test.each(Array.from({ length: COUNT }, (_, index) => FIRST + index))("keeps its promise (seed %i)", async (seed) => {
    const { text, port } = wantedSketch(seed);
    const { input, analysis } = await analysedText(text);
    const placed = analysis.comments.find(({ comment }) => comment.kind === "want")!;
    const answer = plansForWant(input, analysis, placed, { shown: 3, tried: 8 });
    // Never empty-handed without a word.
    expect(answer.plans.length > 0).toBe(answer.why === null);
    const errorsBefore = findingsOf(analysis).flatMap(({ id, severity }) => (severity === "error" ? [id] : []));
    for (const { plan, edits, title, dutyToWrite } of answer.plans) {
      offered += 1;
      const edited = applyToSources(input.sources, edits).tabs[0]!.text;
      const { analysis: after } = await analysedText(edited);
      const output = plan.outputs.find((candidate) => candidate.port === port)!;
      const pin = after.pins.find((candidate) => candidate.port === port)!;
      const pulses = pin.signals.filter(({ kind, regime }) => kind === "pulse" && regime === "running");
      expect(pulses.length, `${title}\n${edited}`).toBeGreaterThan(0);
      for (const pulse of pulses) {
        expect(pulse.frequencyHz, `${title}\n${edited}`).toEqual({ min: output.frequencyHz, max: output.frequencyHz });
        expect(pulse.steps, `${title}\n${edited}`).toBe(output.steps);
      }
      const [judged] = wantVerdicts(after).filter((want) => want.pin?.port === port);
      if (dutyToWrite === null && output.wanted.reach === undefined)
        expect(judged?.met, `${title}: ${judged?.reasons.join("; ")}\n${edited}`).toBe(output.judgement.met);
      const errors = findingsOf(after).filter(({ id, severity }) => severity === "error" && !errorsBefore.includes(id));
      expect(
        errors.map(({ id, message }) => `${id}: ${message}`),
        `${title}\n${edited}`,
      ).toEqual([]);
    }
  });

  test("there were enough of them", () => {
    expect(offered).toBeGreaterThan(COUNT);
  });
});
