/** "Plan a Signal" as the client asks for it: pins, plans for a want that is not written yet, and the edit of one of them. */
import type { PinChoice, PlanChoices, UnreadWant } from "../../shared-model/protocol.js";
import type { Specification } from "../../shared-model/specifications.js";
import { readComment } from "../../shared-model/wants/read-comment.js";
import type { Analysis } from "../analysis.js";
import type { TextEdit } from "../edits/text-edit.js";
import type { Stop } from "../limits.js";
import { pinLabel } from "../look/look.js";
import { showHzBounds } from "../look/show.js";
import { EXPECTED_WANT, plansForNewWant, wantOpening } from "../plans/new-want.js";
import { planRemark } from "../plans/plan-words.js";
import type { SketchPlan } from "../plans/sketch-plan.js";
import type { AnalysedSketch } from "./sketch-cache.js";

/** Pins with a compare unit, in board order. */
export function pinChoices(analysis: Analysis): PinChoice[] {
  return analysis.pins
    .filter((pin) => pin.units.length > 0)
    .map((pin) => ({
      pin: pinLabel(analysis, pin),
      says: `${pin.units.join(" and ")}${pin.timer === null ? "" : `, timer ${pin.timer}`}`,
      today: today(pin.signals),
    }));
}

function today(signals: Analysis["pins"][number]["signals"]): string {
  const running = signals
    .filter((signal) => signal.regime === "running")
    .sort((left, right) => Number(right.kind === "pulse") - Number(left.kind === "pulse"));
  const told = running.map((signal) => {
    if (signal.kind === "pulse") return signal.frequencyHz === null ? "pulses" : showHzBounds(signal.frequencyHz);
    if (signal.kind === "level") return signal.level === null ? "a constant level" : `constant ${signal.level}`;
    return signal.kind;
  });
  return told.length === 0 ? "not driven" : [...new Set(told)].slice(0, 3).join(" or ");
}

/** Where the text of a want stops being understood, while it is typed; null where it can be read. */
export function unreadPart(pin: string, want: string, known: readonly Specification[]): UnreadWant | null {
  const opening = wantOpening(pin);
  const read = readComment(`${opening}${want.replace(/\s+/g, " ")}`, known)[0];
  if (read?.kind === "want") return null;
  return {
    column: Math.max(0, (read?.kind === "unread" ? read.column : 0) - opening.length),
    expected: read?.kind === "unread" ? read.expected : EXPECTED_WANT,
  };
}

export function planChoices(sketch: AnalysedSketch, pin: string, want: string, stop: Stop): PlanChoices {
  const found = plansForNewWant(sketch.input(stop), sketch.analysis, pin, want);
  if (found.kind === "unread") return { unread: found.unread, plans: [], why: null, moves: [] };
  const { plans, why, moves } = found.plans;
  return {
    unread: null,
    plans: plans.map((plan) => ({
      title: plan.title,
      label: planRemark(sketch.analysis, plan.plan),
      says: saysOf(plan),
      costs: plan.plan.costs.map((cost) => cost.text).join("; "),
      code: plan.code,
    })),
    why,
    moves: moves.map(({ label, because }) => `${label} would do better: ${because}.`),
  };
}

function saysOf({ plan, dutyToWrite }: SketchPlan): string {
  const met =
    plan.verdict === "yes"
      ? "meets the want"
      : plan.verdict === "marginal"
        ? "met but for the clock's tolerance"
        : "does not meet the want";
  const told = `${plan.because}; ${met}`;
  return dutyToWrite === null ? told : `${told}; the duty is then written to ${dutyToWrite}`;
}

/** Edits of the plan with that title, with the want itself where it is to be written. */
export function plannedEdits(
  sketch: AnalysedSketch,
  asked: { readonly pin: string; readonly want: string; readonly title: string; readonly writesWant: boolean },
  stop: Stop,
): { readonly edits: readonly TextEdit[] } | { readonly refused: string } {
  const found = plansForNewWant(sketch.input(stop), sketch.analysis, asked.pin, asked.want);
  if (found.kind === "unread") return { refused: `the want cannot be read: expected ${found.unread.expected}` };
  const plan = found.plans.plans.find((candidate) => candidate.title === asked.title);
  if (plan === undefined)
    return { refused: found.plans.why ?? "the sketch has changed, and this plan is no longer there" };
  return { edits: asked.writesWant ? [found.want, ...plan.edits] : plan.edits };
}
