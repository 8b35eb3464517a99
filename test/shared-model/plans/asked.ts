/** Asking the planner from a test: a board, pins and the text of a want. */
import { bareCore } from "../../../shared-model/plans/bare-core.js";
import type { Occupation } from "../../../shared-model/plans/occupation.js";
import type { Plan, PlanAnswer } from "../../../shared-model/plans/plan.js";
import { type PlanRequest, plansFor } from "../../../shared-model/plans/planner.js";
import { resolveTarget } from "../../../shared-model/target.js";
import type { WantedSignal } from "../../../shared-model/wants/comment.js";
import { readComment } from "../../../shared-model/wants/read-comment.js";

export function wanted(text: string): WantedSignal {
  const comment = readComment(`// wants D9: ${text}`)[0];
  if (comment?.kind !== "want") throw new Error(`no want: ${text}`);
  return comment;
}

export interface Asking {
  readonly clockHz?: number;
  readonly occupation?: Partial<Occupation>;
}

/** `pins` as the board numbers them, each with its want. */
export function requestFor(
  board: string,
  pins: Readonly<Record<number, string | WantedSignal>>,
  { clockHz, occupation }: Asking = {},
): PlanRequest {
  const answer = resolveTarget({ commandLine: { board, ...(clockHz === undefined ? {} : { clockHz }) } });
  if ("problem" in answer) throw new Error(answer.problem);
  const { target } = answer;
  const outputs = Object.entries(pins).map(([pin, want]) => ({
    port: target.pins.find((candidate) => candidate.number === Number(pin))!.port,
    want: typeof want === "string" ? wanted(want) : want,
  }));
  return { target, outputs, occupation: { ...bareCore(target), ...occupation } };
}

export function ask(
  board: string,
  pins: Readonly<Record<number, string | WantedSignal>>,
  asking: Asking = {},
): PlanAnswer {
  return plansFor(requestFor(board, pins, asking));
}

/** A plan in one line: `2 mode 5 /32 TOP 250 com 2: 1000 Hz, 251 steps, yes`. */
export function line(plan: Plan): string {
  const { timer, mode, prescaler, top } = plan.setting;
  const outputs = plan.outputs.map(({ com, frequencyHz, steps }) => {
    const hz = Number((frequencyHz.num / frequencyHz.den).toPrecision(7));
    return `com ${com}: ${hz} Hz, ${steps} steps`;
  });
  return `timer ${timer} mode ${mode} /${prescaler} TOP ${top} ${[...new Set(outputs)].join("; ")}, ${plan.verdict}`;
}

export function lines(answer: PlanAnswer): string[] {
  return answer.plans.map(line);
}

export function costs(plan: Plan | undefined): string[] {
  return (plan?.costs ?? []).map(
    (cost) => `${cost.hurts ? "! " : ""}${cost.kind}${cost.port === null ? "" : ` ${cost.port}`}`,
  );
}
