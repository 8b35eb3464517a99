/**
 * Whether a plan keeps its promise on this sketch: its edit is made in memory, the sketch analysed again, and what the pins
 * put out compared with what was promised and with what was. Nothing is shown before this says yes.
 */
import { compareFractions, toNumber } from "../../shared-model/fraction.js";
import { pinLabel } from "../../shared-model/plans/pin-label.js";
import type { Plan, PlannedOutput } from "../../shared-model/plans/plan.js";
import type { WantedSignal } from "../../shared-model/wants/comment.js";
import { judgeWant, type Verdict } from "../../shared-model/wants/judge.js";
import { type AnalyseInput, analyse } from "../analyse.js";
import type { Analysis, PinHistory, PinSignal } from "../analysis.js";
import { applyToSources } from "../edits/apply.js";
import type { TextEdit } from "../edits/text-edit.js";
import { lastingStates } from "../look/look.js";
import { timeBaseOf, timeBaseWords } from "../look/time-base.js";
import type { Manner, WrittenPlan } from "./plan-edit.js";

export type PlanProof =
  | { readonly edits: readonly TextEdit[]; readonly after: Analysis }
  | { readonly refused: string };

/** `input` is what `before` was made from. Costs one analysis of the whole sketch. */
export function provePlan(
  input: AnalyseInput,
  before: Analysis,
  plan: Plan,
  written: WrittenPlan,
  manner: Manner,
): PlanProof {
  const { edits } = written;
  const foreign = edits.find((edit) => before.files.find((file) => file.path === edit.span.path)?.kind !== "sketch");
  if (foreign !== undefined) return { refused: `it would edit ${foreign.span.path}, which is not part of the sketch` };
  if (overlap(edits)) return { refused: "its edits would fall on one another" };
  const after = analyse({ ...input, sources: applyToSources(input.sources, edits) });
  const refused = refusal(before, after, plan, written, manner);
  return refused === null ? { edits, after } : { refused };
}

function overlap(edits: readonly TextEdit[]): boolean {
  const sorted = [...edits].sort((left, right) => left.span.start - right.span.start || left.span.end - right.span.end);
  return sorted.some((edit, index) =>
    sorted.slice(index + 1).some(({ span }) => span.path === edit.span.path && span.start < edit.span.end),
  );
}

function refusal(before: Analysis, after: Analysis, plan: Plan, written: WrittenPlan, manner: Manner): string | null {
  for (const output of plan.outputs) {
    const reason =
      notAsPromised(after, output) ??
      notAsWanted(before, after, output, written) ??
      (manner.duty === "as wanted" && speaksOfDuty(output.wanted) ? null : dutyMoved(before, after, output.port));
    if (reason !== null) return `${pinLabel(before.target, output.port)}: ${reason}`;
  }
  return (
    othersMoved(before, after, plan) ??
    timeBaseMoved(before, after, plan) ??
    (after.gaps.length > before.gaps.length ? "the edited sketch would be understood less well" : null)
  );
}

function speaksOfDuty(wanted: WantedSignal): boolean {
  return wanted.duty !== undefined || wanted.pulse !== undefined || wanted.reach !== undefined;
}

function running(analysis: Analysis, port: string): readonly PinSignal[] {
  const pin = pinAt(analysis, port);
  const signals = pin?.signals.filter((signal) => signal.regime === "running") ?? [];
  return signals.length > 0 ? signals : (pin?.signals ?? []);
}

function pinAt(analysis: Analysis, port: string): PinHistory | undefined {
  return analysis.pins.find((candidate) => candidate.port === port);
}

/** Every pulse of the timer has exactly the promised frequency and steps; nothing is unknown. */
function notAsPromised(after: Analysis, output: PlannedOutput): string | null {
  const signals = running(after, output.port);
  const pulses = signals.filter((signal) => signal.kind === "pulse");
  if (signals.some((signal) => signal.kind === "unknown")) return "its signal would not be known";
  if (signals.some((signal) => signal.kind === "not driven")) return "it would not be driven all the time";
  if (pulses.length === 0) return "it would give no pulse";
  for (const pulse of pulses) {
    if (pulse.driver !== "timer" || pulse.frequencyHz === null) return "something else than the timer makes its pulses";
    const { min, max } = pulse.frequencyHz;
    if (compareFractions(min, output.frequencyHz) !== 0 || compareFractions(max, output.frequencyHz) !== 0)
      return `the frequency would be ${toNumber(min)} Hz, not ${toNumber(output.frequencyHz)} Hz`;
    if (pulse.steps !== null && pulse.steps !== output.steps)
      return `there would be ${pulse.steps} steps, not ${output.steps}`;
  }
  return null;
}

const BETTER: readonly Verdict[] = ["no", "unknown", "marginal", "yes"];

/**
 * Each demand is met as the plan says it can be. What the sketch itself has to do, giving the duties that are to be reached,
 * must be no worse than before where it writes duties, and is still to be done where it does not.
 */
function notAsWanted(before: Analysis, after: Analysis, output: PlannedOutput, written: WrittenPlan): string | null {
  const { wanted } = output;
  const tolerance = after.target.clockTolerance;
  const judge = (analysis: Analysis, part: WantedSignal) => judgeWant(part, running(analysis, output.port), tolerance);
  const rank = (met: Verdict) => BETTER.indexOf(met);
  const timing: WantedSignal = {
    ...(wanted.frequency === undefined ? {} : { frequency: wanted.frequency }),
    ...(wanted.steps === undefined ? {} : { steps: wanted.steps }),
  };
  const plain = judge(after, timing);
  if (rank(plain.met) < rank(output.judgement.met)) return plain.reasons[0] ?? "the want would not be met";
  // How the pin rests is said by the want where it says it: then its levels are none of the duty's.
  const resting = wanted.idle === undefined ? {} : { idle: wanted.idle };
  for (const part of [
    ...(wanted.duty === undefined ? [] : [{ duty: wanted.duty, ...resting }]),
    ...(wanted.pulse === undefined ? [] : [{ pulse: wanted.pulse, ...resting }]),
    ...(wanted.reach === undefined || written.dutyOpen.includes(output.unit) ? [] : [{ reach: wanted.reach }]),
  ]) {
    const now = judge(after, part);
    if (rank(now.met) >= rank(output.judgement.met)) continue;
    const isReach = "reach" in part;
    if (!isReach || rank(now.met) < rank(judge(before, part).met))
      return now.reasons[0] ?? "the duty would leave the want";
    // A sketch that writes one fixed duty reaches no two ends, whatever the timer can do.
    if (!isFixed(before, output.port)) return now.reasons[0] ?? "the duty would not reach what is wanted";
  }
  return null;
}

function isFixed(analysis: Analysis, port: string): boolean {
  const duties = dutyBounds(running(analysis, port));
  return duties === null || duties.max - duties.min < 1e-9;
}

interface DutyBounds {
  readonly min: number;
  readonly max: number;
  /** Share of the period that one step of the compare value is. */
  readonly step: number;
}

/** Null where no timer gives a pulse there. */
function dutyBounds(signals: readonly PinSignal[]): DutyBounds | null {
  let min = 1;
  let max = 0;
  let step = 0;
  let pulses = 0;
  for (const signal of signals) {
    if (signal.kind === "level") {
      if (signal.level !== "high") min = 0;
      if (signal.level !== "low") max = 1;
    }
    if (signal.kind !== "pulse" || signal.duty === null) continue;
    pulses += 1;
    min = Math.min(min, toNumber(signal.duty.min));
    max = Math.max(max, toNumber(signal.duty.max));
    if (signal.steps !== null && signal.steps > 1) step = Math.max(step, 1 / (signal.steps - 1));
  }
  return pulses === 0 ? null : { min, max, step };
}

/** The duty stays within a step of the coarser of the two scales, and the rounding of the finer. */
function dutyMoved(before: Analysis, after: Analysis, port: string): string | null {
  const was = dutyBounds(running(before, port));
  const is = dutyBounds(running(after, port));
  if (was === null || is === null) return null;
  const slack = was.step + is.step + 1e-9;
  if (Math.abs(was.min - is.min) <= slack && Math.abs(was.max - is.max) <= slack) return null;
  const show = (duty: DutyBounds) => `${(duty.min * 100).toFixed(1)}..${(duty.max * 100).toFixed(1)} %`;
  return `the duty would be ${show(is)} in place of ${show(was)}`;
}

/** Pins that no cost names keep their signals; those that are named keep their duty as near as the new scale allows. */
function othersMoved(before: Analysis, after: Analysis, plan: Plan): string | null {
  const own = new Set(plan.outputs.map((output) => output.port));
  const named = new Set(plan.costs.map((cost) => cost.port));
  const ports = new Set([...before.pins, ...after.pins].map((pin) => pin.port));
  for (const port of ports) {
    if (own.has(port)) continue;
    const lost = plan.costs.some((cost) => cost.port === port && cost.kind === "pin lost");
    if (named.has(port)) {
      const moved = lost ? null : dutyMoved(before, after, port);
      if (moved !== null) return `${pinLabel(before.target, port)}: ${moved}`;
    } else if (signalsKey(pinAt(before, port)) !== signalsKey(pinAt(after, port)))
      return `the signal of ${pinLabel(before.target, port)} would change`;
  }
  return null;
}

/** What a pin puts out while the sketch runs, without the places and conditions that an edit may move. */
function signalsKey(pin: PinHistory | undefined): string {
  const signals = pin?.signals.filter((signal) => signal.regime === "running") ?? [];
  const key = ({ kind, level, driver, frequencyHz, duty }: PinSignal) =>
    JSON.stringify({ kind, level, driver, frequencyHz, duty });
  // A pin that nobody drives may be on record or not.
  return JSON.stringify([...new Set(signals.filter(({ kind }) => kind !== "not driven").map(key))].sort());
}

function timeBaseMoved(before: Analysis, after: Analysis, plan: Plan): string | null {
  if (!before.core || plan.costs.some((cost) => cost.kind === "time base")) return null;
  return timeWords(before) === timeWords(after) ? null : `the millisecond clock would change: ${timeWords(after)}`;
}

function timeWords(analysis: Analysis): string {
  const timer = analysis.target.chip.timers.find((candidate) => candidate.number === 0);
  if (timer === undefined) return "";
  const words = lastingStates(analysis, 0).map((state) => timeBaseWords(timeBaseOf(timer, state.snapshot, true)));
  return [...new Set(words)].sort().join("; ");
}
