/**
 * A want of the sketch → the plans that meet it, as proved edits, best first. The one entry for the editor, the command
 * line and the report.
 */
import type { PresentSetting } from "../../shared-model/plans/occupation.js";
import type { Move, Plan } from "../../shared-model/plans/plan.js";
import { plansFor, type WantedOutput } from "../../shared-model/plans/planner.js";
import type { AnalyseInput } from "../analyse.js";
import type { Analysis, PlacedComment } from "../analysis.js";
import { wantVerdicts } from "../look/judged-wants.js";
import { occupationOf, portOfPin } from "./occupation.js";
import { pinsOfPlan } from "./plan-edit.js";
import { planTitle } from "./plan-words.js";
import type { SketchPlan } from "./sketch-plan.js";
import { tryPlan } from "./try-plan.js";

export interface WantPlans {
  readonly plans: readonly SketchPlan[];
  /** Why there is none; null where there is one. */
  readonly why: string | null;
  /** "Move the wire": pins that would do better, or at all. */
  readonly moves: readonly Move[];
}

export interface PlanLimits {
  /** Plans that are shown. */
  readonly shown: number;
  /** Plans that are tried on the sketch: each costs an analysis or a few. */
  readonly tried: number;
}

export const PLAN_LIMITS: PlanLimits = { shown: 5, tried: 10 };

interface NamedOutput extends WantedOutput {
  /** As the want writes the pin. */
  readonly name: string;
}

const cache = new WeakMap<Analysis, Map<string, WantPlans>>();

/**
 * `placed` is a want of this analysis; `input` is what the analysis was made from. What was worked out once is kept with the
 * analysis. `input.stop` ends it at any time.
 */
export function plansForWant(
  input: AnalyseInput,
  analysis: Analysis,
  placed: PlacedComment,
  limits: PlanLimits = PLAN_LIMITS,
): WantPlans {
  const key = `${placed.span.path}:${placed.span.start}:${placed.pin}:${limits.shown}`;
  const known = cache.get(analysis)?.get(key);
  if (known !== undefined) return known;
  const made = workOut(input, analysis, placed, limits);
  const kept = cache.get(analysis) ?? new Map<string, WantPlans>();
  kept.set(key, made);
  cache.set(analysis, kept);
  return made;
}

/** "Move the wire" for a want, best first: arithmetic alone, nothing is analysed again. */
export function movesForWant(analysis: Analysis, placed: PlacedComment): readonly Move[] {
  const port = placed.pin === null ? undefined : portOfPin(analysis, placed.pin);
  const { comment } = placed;
  if (comment.kind !== "want" || port === undefined) return [];
  const outputs = [{ port, want: comment }];
  return plansFor({ target: analysis.target, outputs, occupation: occupationOf(analysis, new Set([port])) }).moves;
}

function workOut(input: AnalyseInput, analysis: Analysis, placed: PlacedComment, limits: PlanLimits): WantPlans {
  const { comment } = placed;
  if (comment.kind !== "want") return { plans: [], why: "this is no want", moves: [] };
  const port = placed.pin === null ? undefined : portOfPin(analysis, placed.pin);
  if (port === undefined) return { plans: [], why: `${comment.pin} is no pin that is known here`, moves: [] };
  let refused: string | null = null;
  let last: WantPlans = { plans: [], why: null, moves: [] };
  const met = isMet(analysis, placed);
  for (const outputs of groups(analysis, placed, { port, want: comment, name: comment.pin })) {
    const occupation = occupationOf(analysis, new Set(outputs.map((output) => output.port)));
    const present = occupation.present ?? new Map<number, PresentSetting>();
    const answer = plansFor({ target: analysis.target, outputs, occupation });
    const plans: SketchPlan[] = [];
    const names = pinNames(outputs);
    for (const plan of answer.plans.slice(0, limits.tried)) {
      if (plans.length >= limits.shown) break;
      if (met && isPresent(present.get(plan.setting.timer), plan)) continue;
      input.stop();
      const proved = tryPlan(input, analysis, plan, names);
      if ("refused" in proved) {
        refused ??= proved.refused;
        continue;
      }
      const open = plan.outputs.filter((output) => proved.dutyOpen.includes(output.unit));
      plans.push({
        plan,
        title: planTitle(analysis, plan, proved.spread),
        pins: pinsOfPlan(analysis, plan),
        code: proved.code.join("\n"),
        edits: proved.edits,
        spread: proved.spread,
        dutyToWrite:
          open.length === 0 ? null : open.map((output) => `${output.compare} (0..${plan.setting.top})`).join(" and "),
      });
    }
    last = { plans, why: plans.length > 0 ? null : (answer.why ?? refusal(refused)), moves: answer.moves };
    if (plans.length > 0) return last;
  }
  if (met) return { ...last, why: "the sketch meets this want already, and no other setting is better" };
  return last;
}

/** The sketch does so already. */
function isPresent(present: PresentSetting | undefined, { setting }: Plan): boolean {
  return (
    present !== undefined &&
    present.mode === setting.mode &&
    present.prescaler === setting.prescaler &&
    present.top === setting.top
  );
}

function refusal(reason: string | null): string {
  return reason === null
    ? "no setting meets the want"
    : `settings that meet the want are there, but none keeps its promise in this sketch: ${reason}`;
}

function isMet(analysis: Analysis, placed: PlacedComment): boolean {
  return wantVerdicts(analysis).some((judged) => judged.placed === placed && judged.met === "yes");
}

/** The want with the others that its timer has to serve, and by itself: what is tried, in this order. */
function groups(analysis: Analysis, placed: PlacedComment, own: NamedOutput): readonly (readonly NamedOutput[])[] {
  const timers = timersOf(analysis, own.port);
  const others: NamedOutput[] = [];
  for (const other of analysis.comments) {
    if (other === placed || other.comment.kind !== "want" || other.pin === null) continue;
    if (other.inFunction !== placed.inFunction) continue;
    const port = portOfPin(analysis, other.pin);
    if (port === undefined || port === own.port || others.some((known) => known.port === port)) continue;
    if (timersOf(analysis, port).some((timer) => timers.includes(timer)))
      others.push({ port, want: other.comment, name: other.comment.pin });
  }
  const all = [own, ...others].sort((left, right) => (left.port < right.port ? -1 : 1));
  return others.length === 0 ? [[own]] : [all, [own]];
}

function timersOf(analysis: Analysis, port: string): readonly number[] {
  return analysis.target.chip.timers
    .filter((timer) => timer.channels.some((channel) => channel.port === port))
    .map((timer) => timer.number);
}

/** What the sketch itself calls the pins: a constant that the want names. */
function pinNames(outputs: readonly NamedOutput[]): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  for (const { port, name } of outputs) {
    if (/^[A-Za-z_][\w:]*$/.test(name) && !isPrinted(name)) names.set(port, name);
  }
  return names;
}

/** `D9`, `A0`, `PD3`: not the sketch's names, though `A0` is one of the core's. */
function isPrinted(name: string): boolean {
  return /^(?:[dD]\d+|[aA]\d+|[pP][a-lA-L]\d)$/.test(name);
}
