/**
 * One random want: planned by the product, the edited sketch compiled and simulated, and the wanted pin measured. The old
 * sketch is simulated too, so that its duty is known without asking the product.
 */
import { type AnalyseInput, analyse } from "../../../server/analyse.js";
import { applyToSources } from "../../../server/edits/apply.js";
import { targetInComments } from "../../../server/files/target-comment.js";
import { DEFAULT_LIMITS } from "../../../server/limits.js";
import type { Parser } from "../../../server/parse/parse.js";
import { plansForWant } from "../../../server/plans/plans-for-want.js";
import type { SketchPlan } from "../../../server/plans/sketch-plan.js";
import type { SourceFile } from "../../../server/preprocess/source.js";
import type { Plan } from "../../../shared-model/plans/plan.js";
import { resolveTarget } from "../../../shared-model/target.js";
import { chipOf, compileSketch } from "../compile.js";
import { Machine } from "../machine.js";
import { type HighPulse, PulseWatch } from "./pulse-watch.js";
import type { WantedSketch } from "./random-want.js";

export interface PlanOutcome {
  /** Null where the product has no plan: then `why` says why. */
  readonly title: string | null;
  readonly why: string | null;
  readonly edited: string;
  /** What is wrong; empty where all is as promised. */
  readonly faults: readonly string[];
  readonly dutyCompared: boolean;
}

/** A few instructions pass between the write that stops the clock and the one that pulls the pin low. */
const STOP_CYCLES = 16;
const PERIODS = 12;

/** `which` chooses among the first four plans that are shown. */
export async function runWant(sketch: WantedSketch, parser: Parser, which: number): Promise<PlanOutcome> {
  const input = inputOf(sketch.text, parser);
  const analysis = analyse(input);
  const placed = analysis.comments.find(({ comment }) => comment.kind === "want");
  if (placed === undefined) throw new Error("the sketch has no want");
  const answer = plansForWant(input, analysis, placed, { shown: 1 + (which % 4), tried: 10 });
  const chosen = answer.plans.at(-1);
  if (chosen === undefined) return { title: null, why: answer.why, edited: "", faults: [], dutyCompared: false };
  const after = applyToSources(input.sources, chosen.edits);
  const edited = after.tabs[0]!.text;
  const [was, is] = [await simulated(sketch, sketch.text, chosen), await simulated(sketch, edited, chosen)];
  const faults = faultsOf(sketch, chosen, was, is);
  return {
    title: chosen.title,
    why: null,
    edited,
    faults: faults.map((fault) => fault.text),
    dutyCompared: dutyOf(was) !== null && !sketch.varying,
  };
}

function inputOf(text: string, parser: Parser): AnalyseInput {
  const file: SourceFile = { path: "sketch.ino", text, kind: "sketch" };
  const answer = resolveTarget({ comment: targetInComments([file]) });
  if ("problem" in answer) throw new Error(answer.problem);
  return {
    sources: { tabs: [file], units: [], include: () => undefined },
    target: answer.target,
    parser,
    limits: DEFAULT_LIMITS,
    stop: () => {},
  };
}

interface Seen {
  readonly watch: PulseWatch;
  readonly end: number;
}

async function simulated(sketch: WantedSketch, text: string, { plan }: SketchPlan): Promise<Seen> {
  const image = await compileSketch({ path: "sketch.ino", text }, sketch.board);
  const watch = new PulseWatch(sketch.port, plan.setting.timer);
  const machine = new Machine(chipOf(sketch.board), image.flash, { observer: watch, analog: () => sketch.reading });
  watch.machine = machine;
  const output = plan.outputs.find(({ port }) => port === sketch.port)!;
  const period = (16e6 * output.frequencyHz.den) / output.frequencyHz.num;
  const end = Math.round(2_000_000 + PERIODS * Math.max(period, 66_000));
  machine.run(end);
  return { watch, end };
}

interface Fault {
  readonly text: string;
}

function faultsOf(sketch: WantedSketch, { plan, spread, code }: SketchPlan, was: Seen, is: Seen): Fault[] {
  const output = plan.outputs.find(({ port }) => port === sketch.port)!;
  const period = (16e6 * output.frequencyHz.den) / output.frequencyHz.num;
  const faults: Fault[] = [];
  const say = (text: string) => faults.push({ text });
  const steady = is.watch.pulses.slice(-PERIODS);
  if (steady.length < 4) {
    say(`only ${is.watch.pulses.length} pulses were seen`);
    return faults;
  }
  for (const [index, pulse] of steady.slice(1).entries()) {
    const seen = pulse.rise - steady[index]!.rise;
    // A duty that moves is not taken over at the same place of the period: dual slope counts from the middle of a pulse.
    const middle = (pulse.rise + pulse.fall - steady[index]!.rise - steady[index]!.fall) / 2;
    if (seen !== period && !(sketch.varying && Math.abs(middle - period) <= period / 2)) {
      say(`a period of ${seen} cycles, promised ${period}`);
      break;
    }
  }
  if (!sketch.varying) {
    const highs = new Set(steady.map(widthOf));
    if (highs.size > 1) say(`the duty moves: ${[...highs].join(", ")} cycles of ${period}`);
    const fault = spread ? null : dutyFault(plan, sketch, was, is);
    if (fault !== null) say(fault);
  }
  const fault = switchFault(sketch, was, is, firstWidth(plan, sketch, code));
  if (fault !== null) say(fault);
  return faults;
}

function widthOf(pulse: HighPulse): number {
  return pulse.fall - pulse.rise;
}

interface SeenDuty {
  readonly share: number;
  /** Cycles. */
  readonly period: number;
}

/** Of the last pulses; null where there are none, or not of one width. */
function dutyOf({ watch, end }: Seen): SeenDuty | null {
  const last = watch.pulses.slice(-4);
  if (last.length < 4 || watch.openSince() !== null ? last.length < 4 : false) return null;
  const period = last[3]!.rise - last[2]!.rise;
  if (new Set(last.map(widthOf)).size > 1 || end - last[3]!.rise > 3 * period) return null;
  return { share: widthOf(last[3]!) / period, period };
}

/** Within one step of the coarser of the two scales and the rounding of the finer, or inside the want where that speaks of it. */
function dutyFault(plan: Plan, sketch: WantedSketch, was: Seen, is: Seen): string | null {
  const output = plan.outputs.find(({ port }) => port === sketch.port)!;
  const now = dutyOf(is);
  const before = dutyOf(was);
  if (now === null) return "the duty is not steady";
  const wanted = output.wanted.duty;
  const step = 1 / Math.max(1, output.steps - 1);
  if (wanted !== undefined && (now.share < wanted.min - 1e-9 || now.share > wanted.max + 1e-9))
    return `duty ${now.share}, wanted ${wanted.min}..${wanted.max}`;
  if (before === null || output.steps === 1) return null;
  const slack = Math.max(step, 1 / 255) + step + 1e-9;
  if (Math.abs(now.share - before.share) <= slack) return null;
  const outside = wanted !== undefined && (before.share < wanted.min + slack || before.share > wanted.max - slack);
  return outside || wanted !== undefined ? null : `duty ${now.share}, was ${before.share}`;
}

/** No pulse from the switch-over on is longer than what is commanded; the one under way ends at once. */
function switchFault(sketch: WantedSketch, was: Seen, is: Seen, first: number): string | null {
  const { stops, pulses } = is.watch;
  const stop = stops[stops.length - 1];
  if (stop === undefined) return null;
  const after = pulses.filter((pulse) => pulse.rise > stop);
  // What a moving duty gives later, and what the sketch holds for a while anywhere: in setup, too, it may command a width of its own.
  const later = sketch.varying ? after.filter((pulse) => pulse.rise > is.end / 2).map(widthOf) : [];
  const usual = [...later, ...repeated(after)];
  const commanded = Math.max(first, ...usual);
  const old = Math.max(0, ...was.watch.pulses.map(widthOf));
  for (const pulse of pulses.filter(({ fall, byTimer }) => fall > stop && byTimer).slice(0, 6)) {
    if (pulse.rise < stop) {
      if (pulse.fall > stop + STOP_CYCLES && widthOf(pulse) > Math.max(old, commanded))
        return `the pulse under way lasts ${pulse.fall - stop} cycles longer than the old clock`;
    } else if (widthOf(pulse) > Math.max(commanded, STOP_CYCLES))
      return `a pulse of ${widthOf(pulse)} cycles at the switch-over, commanded are ${commanded}`;
  }
  return null;
}

/** The width that the code itself begins with, by the data sheet's formulas: in cycles, 0 where it writes no compare value. */
function firstWidth(plan: Plan, sketch: WantedSketch, code: string): number {
  const output = plan.outputs.find(({ port }) => port === sketch.port)!;
  const value = new RegExp(`^${output.compare} = (\\d+);`, "m").exec(code)?.[1];
  if (value === undefined || plan.setting.topRegister === output.compare) return 0;
  const period = (16e6 * output.frequencyHz.den) / output.frequencyHz.num;
  const { prescaler, top } = plan.setting;
  const dual = period === prescaler * 2 * top;
  const counts = output.com === 3 ? top - Number(value) : Number(value);
  return prescaler * (dual ? 2 * counts : counts + (output.com === 3 ? 0 : 1));
}

/** Widths that come at least twice running: what the sketch commands, however briefly. A slip at the switch-over comes once. */
function repeated(pulses: readonly HighPulse[]): number[] {
  return pulses.map(widthOf).filter((width, index, all) => width === all[index + 1]);
}
