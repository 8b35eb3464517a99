/** A plan in words: the title of its action, and the remark above its code. */
import type { Plan } from "../../shared-model/plans/plan.js";
import type { Analysis } from "../analysis.js";
import { unitLabel } from "../look/look.js";
import { listed, showHz } from "../look/show.js";

const FAMILIES: Readonly<Record<string, string>> = {
  normal: "normal mode",
  ctc: "CTC",
  fast: "fast PWM",
  "phase correct": "phase correct",
  "phase and frequency correct": "phase and frequency correct",
};

/** `Set timer 2 for 1 kHz on D3: phase correct, /32, TOP 250 (exact, 251 steps; D11 loses its duty)`. */
export function planTitle(analysis: Analysis, plan: Plan, spread: boolean): string {
  const { setting } = plan;
  const costs = plan.costs
    .filter((cost) => cost.hurts || cost.kind === "pin lost")
    .map((cost) => firstClause(cost.text));
  const more = plan.costs.length - costs.length;
  const told = [
    plan.because,
    ...costs,
    ...(more > 0 && costs.length === 0 ? plan.costs.map((cost) => firstClause(cost.text)).slice(0, 1) : []),
  ];
  return `Set timer ${setting.timer} for ${rates(analysis, plan)}: ${modeName(analysis, plan)}, /${setting.prescaler}, TOP ${setting.top} (${told.join("; ")}${spread ? "; the duty gets a new scale" : ""})`;
}

/** What the code gives, beside the line that starts the clock: a claim that is true there. */
export function planRemark(analysis: Analysis, plan: Plan): string {
  const { setting } = plan;
  return `${rates(analysis, plan)}: ${modeName(analysis, plan)}, prescaler ${setting.prescaler}, TOP ${setting.top}`;
}

function modeName(analysis: Analysis, plan: Plan): string {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === plan.setting.timer);
  const mode = timer?.modes.find((candidate) => candidate.select === plan.setting.mode);
  return FAMILIES[mode?.family ?? ""] ?? "";
}

/** `1 kHz on D3`, `25 kHz on D9 and D10`. */
function rates(analysis: Analysis, plan: Plan): string {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === plan.setting.timer);
  const label = (unit: string, port: string): string => {
    const channel = timer?.channels.find((candidate) => candidate.unit === unit);
    return channel === undefined ? port : unitLabel(analysis, channel);
  };
  const byRate = new Map<string, string[]>();
  for (const output of plan.outputs) {
    const rate = showRate(output.frequencyHz.num / output.frequencyHz.den);
    byRate.set(rate, [...(byRate.get(rate) ?? []), label(output.unit, output.port)]);
  }
  return listed([...byRate].map(([rate, pins]) => `${rate} on ${listed(pins)}`));
}

/** As people say it: `1 kHz` where the house's tables print `1000 Hz`. */
function showRate(hz: number): string {
  return hz >= 1000 && hz < 1e4 && Number.isInteger(hz / 100) ? `${hz / 1000} kHz` : showHz(hz);
}

function firstClause(text: string): string {
  return text.split(":")[0]!;
}
