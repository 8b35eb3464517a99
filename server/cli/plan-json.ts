/** Plans as JSON: the contract of the command line, with some fields more. */
import type { Target } from "../../shared-model/chip.js";
import { toNumber } from "../../shared-model/fraction.js";
import type { Move, Plan, PlanAnswer, PlannedOutput } from "../../shared-model/plans/plan.js";
import type { PlanRequest } from "../../shared-model/plans/planner.js";
import { modeName } from "../../shared-model/waveforms/control-states.js";
import { planCode } from "./plan-code.js";
import type { PlanWords } from "./plan-request.js";

export interface Answered {
  readonly request: PlanRequest;
  readonly answer: PlanAnswer;
}

export function planJson(target: Target, words: PlanWords, answers: readonly Answered[]): string {
  const whys = answers.flatMap(({ answer }) => (answer.why === null ? [] : [answer.why]));
  const whole = {
    schema: 1,
    pin: answers.flatMap(({ request }) => request.outputs.map(({ port }) => pinNumber(target, port))).join(","),
    want: words.wants.join(" | "),
    board: target.boardId,
    chip: target.chip.id,
    clockHz: target.clockHz,
    clockTolerance: target.clockTolerance,
    plans: answers.flatMap(({ answer }) => answer.plans.map((plan) => printedPlan(target, plan))),
    ...(whys.length === 0 ? {} : { why: whys.join(". ") }),
    nearest: answers.flatMap(({ answer }) => answer.nearest.map((plan) => printedPlan(target, plan))),
    moves: answers.flatMap(({ answer }) => answer.moves.map((move) => printedMove(target, move))),
  };
  return `${JSON.stringify(whole, null, 2)}\n`;
}

/** `9`, `A0`; the port on a bare chip, as in a report. */
export function pinNumber(target: Target, port: string): string {
  const pin = target.board === null ? undefined : target.pins.find((candidate) => candidate.port === port);
  return pin === undefined ? port : (pin.analog ?? String(pin.number));
}

function printedPlan(target: Target, plan: Plan) {
  const timer = target.chip.timers.find((candidate) => candidate.number === plan.setting.timer)!;
  const { prescaler, top, topRegister } = plan.setting;
  const worst = [...plan.outputs].sort((a, b) => Math.abs(b.error) - Math.abs(a.error))[0]!;
  return {
    pin: plan.outputs.map(({ port }) => pinNumber(target, port)).join(","),
    timer: timer.number,
    mode: modeName(timer, timer.modes[plan.setting.mode]!),
    prescaler,
    top,
    topRegister,
    frequencyHz: toNumber(worst.frequencyHz),
    error: worst.error,
    steps: Math.min(...plan.outputs.map(({ steps }) => steps)),
    verdict: plan.verdict,
    costs: plan.costs.map(({ text }) => text),
    hurts: plan.costs.some((cost) => cost.hurts),
    front: plan.front,
    because: plan.because,
    outputs: plan.outputs.map((output) => printedOutput(target, output)),
    code: planCode(target, plan).join("\n"),
  };
}

function printedOutput(target: Target, output: PlannedOutput) {
  return {
    pin: pinNumber(target, output.port),
    port: output.port,
    unit: output.unit,
    output: output.com === 1 ? "toggle" : output.com === 2 ? "non-inverted" : "inverted",
    frequencyHz: toNumber(output.frequencyHz),
    error: output.error,
    steps: output.steps,
    duty: { min: toNumber(output.duty.min), max: toNumber(output.duty.max) },
    compare: output.compare,
    compareValues: output.compareValues,
    verdict: output.judgement.met,
    reasons: output.judgement.reasons,
  };
}

function printedMove(target: Target, move: Move) {
  return {
    to: pinNumber(target, move.port),
    port: move.port,
    because: move.because,
    plan: printedPlan(target, move.plan),
  };
}
