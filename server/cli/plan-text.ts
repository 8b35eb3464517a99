/** Plans as a person reads them at the bench: what was asked of what board, a table, then each plan with costs and code. */
import type { Target } from "../../shared-model/chip.js";
import { pinLabel } from "../../shared-model/plans/pin-label.js";
import type { Cost, Move, Plan } from "../../shared-model/plans/plan.js";
import type { WantComment } from "../../shared-model/wants/comment.js";
import { modeName } from "../../shared-model/waveforms/control-states.js";
import { listed, showClock, showFactor, showHz, showShare } from "../look/show.js";
import { aligned, wrapped } from "../report/columns.js";
import { dutyWords, planCode } from "./plan-code.js";
import type { Answered } from "./plan-json.js";
import type { PlanWords } from "./plan-request.js";

const WIDTH = 110;

export function planText(target: Target, words: PlanWords, answers: readonly Answered[]): string {
  const name =
    target.board === null ? `bare ${target.chip.id}` : `${target.board.name} (${target.boardId}), ${target.chip.id}`;
  const keeping = words.keep.length === 0 ? "" : `, keeping ${listed(words.keep)}`;
  const heading = [
    `${name} at ${showClock(target.clockHz)} ±${showShare(target.clockTolerance)}: ${target.toleranceSource}`,
    `no sketch but the Arduino core${keeping}`,
  ];
  return `${[heading, ...answers.map((answered) => answerLines(target, answered))].map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

function answerLines(target: Target, { request, answer }: Answered): string[] {
  const asked = request.outputs.map(
    ({ port, want }) => `${pinLabel(target, port)} wants ${(want as WantComment).text}`,
  );
  const lines = [...asked];
  if (request.outputs.every(({ want }) => want.frequency === undefined))
    lines.push("no frequency is wanted: any will do, and those near today's come first");
  if (answer.plans.length > 0) lines.push("", ...table(target, answer.plans));
  for (const [at, plan] of answer.plans.entries())
    lines.push("", ...planLines(target, plan, `${at + 1}. ${plan.because}`));
  if (answer.why !== null) lines.push("", ...wrapped(`No plan: ${answer.why}.`, WIDTH, ""));
  for (const plan of answer.nearest)
    lines.push("", ...table(target, [plan]), "", ...planLines(target, plan, plan.because));
  if (answer.moves.length > 0) lines.push("", "Move the wire:", ...moveLines(answer.moves));
  return lines;
}

function table(target: Target, plans: readonly Plan[]): string[] {
  const several = plans[0]!.outputs.length > 1;
  const head = ["", "timer", "mode", "prescaler", "TOP", "frequency", "error", "steps", "meets it"];
  const rows = plans.flatMap((plan, at) => {
    const timer = target.chip.timers.find((candidate) => candidate.number === plan.setting.timer)!;
    return plan.outputs.map((output, index) => [
      index === 0 ? `${at + 1}.` : "",
      index === 0 ? `${timer.number}` : "",
      index === 0 ? modeName(timer, timer.modes[plan.setting.mode]!) : "",
      index === 0 ? `${plan.setting.prescaler}` : "",
      index === 0 ? `${plan.setting.top}` : "",
      `${several ? `${pinLabel(target, output.port)} ` : ""}${showHz(output.frequencyHz)}`,
      output.wanted.frequency === undefined ? "" : output.error === 0 ? "exact" : signed(output.error),
      output.com === 1 ? "toggles" : `${output.steps}${output.com === 3 ? " inverted" : ""}`,
      verdictWords(output.judgement.met),
    ]);
  });
  return aligned([head, ...rows]);
}

function signed(error: number): string {
  const size = Math.abs(error);
  if (error >= 1) return `×${showFactor(error + 1)}`;
  const shown = size < 1e-4 ? `${Number((size * 1e6).toPrecision(2))} ppm` : showShare(size);
  return `${error > 0 ? "+" : "-"}${shown}`;
}

function verdictWords(verdict: string): string {
  return verdict === "marginal" ? "marginal: not over the clock's whole tolerance" : verdict;
}

function planLines(target: Target, plan: Plan, title: string): string[] {
  const lines = [title];
  for (const cost of [...plan.costs].sort((a, b) => Number(b.hurts) - Number(a.hurts)))
    lines.push(...hanging(costMark(cost), cost.text));
  if (plan.verdict !== "yes")
    for (const reason of new Set(
      plan.outputs.flatMap((output) => (output.judgement.met === "yes" ? [] : output.judgement.reasons)),
    ))
      lines.push(...hanging("?", reason));
  const duties = dutyWords(target, plan);
  return [
    ...lines,
    ...planCode(target, plan).map((line) => `      ${line}`),
    ...duties.map((words) => `      // ${words}`),
  ];
}

/** What hurts something in use stands out. */
function costMark(cost: Cost): string {
  return cost.hurts ? "!" : "-";
}

function hanging(mark: string, text: string): string[] {
  const lines = wrapped(text, WIDTH - 2, "     ");
  return lines.map((line, at) => (at === 0 ? `   ${mark} ${line.trimStart()}` : line));
}

function moveLines(moves: readonly Move[]): string[] {
  const rows: string[][] = [];
  for (const { label, because, plan } of moves) {
    const costs = plan.costs.filter((cost) => cost.kind === "bus line" || cost.hurts).map((cost) => cost.text);
    rows.push([`to ${label}`, [because, ...costs].join("; ")]);
  }
  return aligned(rows, "   ");
}
