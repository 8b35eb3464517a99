/** One candidate with one TOP, worked out in full: fractions, compare values, judgement, costs with their numbers. */
import { type Fraction, fraction } from "../fraction.js";
import { showFactor, showHz, showShare } from "../show-numbers.js";
import type { Waveform } from "../signal.js";
import { type JudgedSignal, judgeWant } from "../wants/judge.js";
import type { Verdict } from "../wants/verdict.js";
import { attain } from "./attainable.js";
import { costsOf } from "./costs.js";
import { EXACT, type LaneOutput } from "./lanes.js";
import type { Plan, PlannedOutput } from "./plan.js";
import type { Counting, PlanRequest, PlanTarget } from "./search.js";
import { compareFor, highCounts, stepsOf, topRegisterOf } from "./ways.js";

/** The plan; null where a pin that must stay as it is would change. */
export function planAt(
  request: PlanRequest,
  counting: Counting,
  top: number,
  front: boolean,
  because: string,
): Plan | null {
  const { target, occupation } = request;
  const { timer, mode, clock, prescaler } = counting;
  const costs = costsOf({
    ...counting,
    target,
    occupation,
    top,
  });
  if (costs === null) return null;
  const outputs = counting.outputs.map((output, at) =>
    outputAt(target, request.outputs[at]!.port, output, prescaler, top),
  );
  const topRegister = topRegisterOf(timer, mode);
  return {
    setting: { timer: timer.number, mode: mode.select, clock, prescaler, top, topRegister },
    outputs,
    costs,
    verdict: gravest(outputs.map((output) => output.judgement.met)),
    front,
    because,
  };
}

const GRAVITY: readonly Verdict[] = ["no", "unknown", "marginal", "yes"];

function gravest(verdicts: readonly Verdict[]): Verdict {
  return GRAVITY.find((verdict) => verdicts.includes(verdict)) ?? "yes";
}

function outputAt(target: PlanTarget, port: string, output: LaneOutput, prescaler: number, top: number): PlannedOutput {
  const { want, way } = output;
  const all = highCounts(way, top);
  const attained = attain(want, way, prescaler, top, { clockHz: target.clockHz, tolerance: target.clockTolerance });
  // Where the want cannot be met the judge is asked about everything that the unit can do.
  const used = attained ?? all;
  const cycles = way.times * prescaler * (top + way.plus);
  const frequencyHz = fraction(target.clockHz, cycles);
  const wantedHz = want.frequency?.hz;
  const error = wantedHz === undefined ? 0 : target.clockHz / cycles / wantedHz - 1;
  const ends = [used.least, used.most].map((high) => compareFor(way, top, high)).sort((a, b) => a - b);
  const signals = signalsOf(output, prescaler, top, used, frequencyHz);
  return {
    port,
    unit: way.channel.unit,
    compare: way.channel.compare,
    com: way.com,
    frequencyHz,
    error: Math.abs(error) < EXACT ? 0 : error,
    steps: stepsOf(way, top),
    duty: { min: fraction(all.least, all.whole), max: fraction(all.most, all.whole) },
    compareValues: way.com === 1 ? { min: way.own ? top : 0, max: top } : { min: ends[0]!, max: ends[1]! },
    wanted: want,
    judgement: judgeWant(want, signals, target.clockTolerance, { supplyVolts: target.supply?.volts ?? null }),
  };
}

/** What the pin puts out while the compare register goes through the values that may be used: pulses, and constant levels at the ends. */
function signalsOf(
  { way }: LaneOutput,
  prescaler: number,
  top: number,
  used: { readonly least: number; readonly most: number },
  frequencyHz: Fraction,
): JudgedSignal[] {
  const { whole } = highCounts(way, top);
  const cycles = way.times * prescaler * (top + way.plus);
  const common = {
    driver: "timer" as const,
    steps: stepsOf(way, top),
    top: { min: top, max: top },
    prescaler,
    because: null,
  };
  const level = (which: "low" | "high"): Waveform => ({
    ...common,
    kind: "level",
    level: which,
    frequencyHz: null,
    duty: null,
    highTicks: null,
    periodTicks: null,
  });
  const least = Math.max(used.least, 1);
  const most = Math.min(used.most, whole - 1);
  const pulse: Waveform = {
    ...common,
    kind: "pulse",
    level: null,
    frequencyHz: { min: frequencyHz, max: frequencyHz },
    duty: { min: fraction(least, whole), max: fraction(most, whole) },
    highTicks: { min: (least * cycles) / whole, max: (most * cycles) / whole },
    periodTicks: { min: cycles, max: cycles },
  };
  return [
    ...(least <= most ? [pulse] : []),
    ...(used.least === 0 ? [level("low")] : []),
    ...(used.most === whole ? [level("high")] : []),
  ];
}

/** `exact`, `0.39 % fast`, `490.196 Hz` where no frequency is wanted. */
export function exactness(plan: Pick<Plan, "outputs">): string {
  const words = plan.outputs.map((output) => {
    if (output.wanted.frequency === undefined) return showHz(output.frequencyHz);
    return output.error === 0 ? "exact" : errorWords(output.error);
  });
  return [...new Set(words)].join(" and ");
}

/** `0.39 % fast`; below a hundredth of a percent in ppm, from twice on as a factor. */
export function errorWords(error: number): string {
  const size = Math.abs(error);
  if (error >= 1) return `${showFactor(error + 1)} times too fast`;
  if (error <= -0.5) return `${showFactor(1 / (error + 1))} times too slow`;
  const shown = size < 1e-4 ? `${Number((size * 1e6).toPrecision(2))} ppm` : showShare(size);
  return `${shown} ${error > 0 ? "fast" : "slow"}`;
}

/** `251 steps`, `one duty`. */
export function stepWords(plan: Pick<Plan, "outputs">): string {
  const fewest = Math.min(...plan.outputs.map((output) => output.steps));
  return fewest === 1 ? "one duty, 50 %" : `${fewest} steps`;
}
