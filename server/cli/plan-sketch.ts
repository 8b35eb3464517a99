/** `pulsewright plan SKETCH`: for each want of the sketch the plans that are proved on it, with the lines that they change. */
import { lineIndex } from "../../shared-model/text-position.js";
import type { Analysis } from "../analysis.js";
import { changedLines } from "../edits/changed-lines.js";
import { DOOR_LIMITS, Stopped } from "../limits.js";
import { type JudgedWant, wantVerdicts } from "../look/judged-wants.js";
import { pinLabel } from "../look/look.js";
import { createParser } from "../parse/parse.js";
import { plansForWant, type WantPlans } from "../plans/plans-for-want.js";
import type { SketchPlan } from "../plans/sketch-plan.js";
import type { PlanSketchWords } from "./plan-sketch-request.js";
import { reportOn, type SketchSheet } from "./report-sketches.js";

interface Answered {
  readonly judged: JudgedWant;
  readonly answer: WantPlans;
}

/** 0: every want is met or has a plan. 1: one has neither. 2: a sketch cannot be read. */
export async function planSketch(
  words: PlanSketchWords,
  beside: string,
  out: (text: string) => void,
  complain: (line: string) => void,
): Promise<0 | 1 | 2> {
  const parser = await createParser("auto", { directories: [beside] });
  const { sheets, complaints } = reportOn(words, parser);
  for (const { path, reason } of complaints) complain(`pulsewright: ${path}: ${reason}`);
  const found = sheets.map((sheet) => ({ sheet, wants: answersOf(sheet) }));
  if (words.format === "json")
    out(
      `${JSON.stringify({ schema: 1, sketches: found.map(({ sheet, wants }) => printed(sheet, wants)) }, null, 2)}\n`,
    );
  else out(found.map(({ sheet, wants }) => textOf(sheet, wants)).join("\n"));
  if (complaints.length > 0) return 2;
  const open = found.flatMap(({ wants }) => wants).filter(({ judged }) => judged.met !== "yes");
  return open.every(({ answer }) => answer.plans.length > 0) ? 0 : 1;
}

function answersOf({ analysis, input }: SketchSheet): Answered[] {
  const deadline = performance.now() + DOOR_LIMITS.commandLineMilliseconds;
  const stop = (): void => {
    if (performance.now() > deadline) throw new Stopped();
  };
  return wantVerdicts(analysis).map((judged) => {
    const late: WantPlans = { plans: [], why: "the time for planning was up", moves: [] };
    if (input === null) return { judged, answer: { ...late, why: "the sketch could not be analysed" } };
    try {
      return { judged, answer: plansForWant({ ...input, stop }, analysis, judged.placed) };
    } catch (error) {
      if (error instanceof Stopped) return { judged, answer: late };
      throw error;
    }
  });
}

// ---- JSON

function printed({ reported, analysis }: SketchSheet, wants: readonly Answered[]) {
  return {
    path: reported.path,
    board: analysis.target.boardId,
    chip: analysis.target.chip.id,
    wants: wants.map(({ judged, answer }) => ({
      pin: judged.pin?.pin ?? judged.want.pin,
      text: judged.want.text,
      path: judged.span.path,
      line: indexOf(analysis, judged.span.path).positionAt(judged.span.start).line + 1,
      met: judged.met,
      reasons: judged.reasons,
      plans: answer.plans.map((plan) => printedPlan(analysis, plan)),
      ...(answer.why === null ? {} : { why: answer.why }),
      moves: answer.moves.map(({ label, because }) => ({ to: label, because })),
    })),
  };
}

function printedPlan(analysis: Analysis, { plan, title, code, edits, spread, dutyToWrite, pins }: SketchPlan) {
  return {
    title,
    timer: plan.setting.timer,
    prescaler: plan.setting.prescaler,
    top: plan.setting.top,
    verdict: plan.verdict,
    costs: plan.costs.map(({ text }) => text),
    hurts: plan.costs.some((cost) => cost.hurts),
    pins,
    newDutyScale: spread,
    dutyToWrite,
    code,
    edits: edits.map(({ span, text }) => {
      const index = indexOf(analysis, span.path);
      return {
        path: span.path,
        range: { start: index.positionAt(span.start), end: index.positionAt(span.end) },
        newText: text,
      };
    }),
  };
}

function indexOf(analysis: Analysis, path: string) {
  return lineIndex(textOfFile(analysis, path));
}

function textOfFile(analysis: Analysis, path: string): string {
  return analysis.files.find((file) => file.path === path)?.text ?? "";
}

// ---- text

function textOf({ reported, analysis }: SketchSheet, wants: readonly Answered[]): string {
  const lines = [`${reported.path}: ${wants.length === 0 ? "no wants" : analysis.target.boardId}`];
  for (const { judged, answer } of wants) {
    const name = judged.pin === null ? judged.want.pin : pinLabel(analysis, judged.pin);
    lines.push(
      "",
      `${name} wants ${judged.want.text}: ${judged.met}${judged.reasons[0] === undefined ? "" : `, ${judged.reasons[0]}`}`,
    );
    for (const [at, plan] of answer.plans.entries()) lines.push("", ...planLines(analysis, plan, at + 1));
    if (answer.why !== null) lines.push(`  No plan: ${answer.why}.`);
    for (const { label, because } of answer.moves) lines.push(`  To ${label}: ${because}.`);
  }
  return `${lines.join("\n")}\n`;
}

function planLines(analysis: Analysis, plan: SketchPlan, number: number): string[] {
  const lines = [`  ${number}. ${plan.title}`];
  for (const cost of plan.plan.costs) lines.push(`     ${cost.hurts ? "!" : "-"} ${cost.text}`);
  if (plan.dutyToWrite !== null) lines.push(`     - the duty is still to be written: ${plan.dutyToWrite}`);
  for (const path of new Set(plan.edits.map((edit) => edit.span.path))) {
    const text = textOfFile(analysis, path);
    lines.push(
      ...changedLines(
        text,
        plan.edits.filter((edit) => edit.span.path === path),
      ).map((line) => `     ${line}`),
    );
  }
  return lines;
}
