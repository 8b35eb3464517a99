/**
 * Plans for wants on the engine's side: quick fixes on the want's line and on findings about it, and lenses above wants. A
 * plan is proved before it is offered; what was proved once is kept with the analysis.
 */
import {
  type CodeAction,
  CodeActionKind,
  type CodeLens,
  type Diagnostic,
  type Range,
} from "vscode-languageserver/node";
import { APPLY_PLAN_COMMAND } from "../../shared-model/protocol.js";
import type { Span } from "../../shared-model/span.js";
import type { PlacedComment } from "../analysis.js";
import { lineOf } from "../edits/source-text.js";
import { wantLensText } from "../features/want-lens.js";
import type { Stop } from "../limits.js";
import { type JudgedWant, wantVerdicts } from "../look/judged-wants.js";
import { sameSpan } from "../look/look.js";
import { plansForWant, type WantPlans } from "../plans/plans-for-want.js";
import type { SketchPlan } from "../plans/sketch-plan.js";
import type { Judged } from "./offered-actions.js";
import type { ActionData, ActionRequest, LensTitle, ResolvedAction } from "./questions.js";

/** Findings about a want for which another setting of the timer may be the way out. */
const ABOUT_WANTS: ReadonlySet<string> = new Set([
  "off-frequency",
  "thin-margin",
  "coarse-duty",
  "duty-out-of-want",
  "short-of-reach",
]);

/** Actions for the wants that a stretch of text touches, by their own lines or by findings about them. */
export function planActions(
  judged: Judged,
  path: string,
  version: number,
  request: ActionRequest,
  stop: Stop,
): CodeAction[] {
  const { sketch, places } = judged;
  const actions: CodeAction[] = [];
  const titles = new Set<string>();
  for (const want of wantVerdicts(sketch.analysis)) {
    const about = judged.findings.filter(
      (finding) =>
        ABOUT_WANTS.has(finding.id) &&
        finding.span.path === path &&
        [finding.span, ...finding.related.map((related) => related.span)].some((span) => sameSpan(span, want.span)),
    );
    const touched = about.filter((finding) => meets(places.range(finding.span), request.range));
    const onLine = want.span.path === path && meets(linesOf(judged, want.span), request.range);
    // Unasked, a want that is met gets no lamp.
    if (touched.length === 0 && (!onLine || (request.automatic && want.met === "yes"))) continue;
    const diagnostics = touched.map((finding) => places.diagnostic(finding));
    const answer = plansOf(judged, want.placed, stop);
    for (const plan of answer.plans) {
      if (titles.has(plan.title)) continue;
      titles.add(plan.title);
      actions.push(offered(plan, want, path, version, diagnostics));
    }
    if (answer.plans.length === 0 && want.met !== "yes") {
      const title = `Set a timer for what ${want.want.pin} wants`;
      if (titles.has(title)) continue;
      titles.add(title);
      actions.push({ title, kind: CodeActionKind.QuickFix, disabled: { reason: whyNot(answer) } });
    }
  }
  return actions;
}

function plansOf(judged: Judged, placed: PlacedComment, stop: Stop): WantPlans {
  return plansForWant(judged.sketch.input(stop), judged.sketch.analysis, placed);
}

function offered(
  plan: SketchPlan,
  want: JudgedWant,
  path: string,
  version: number,
  diagnostics: readonly Diagnostic[],
): CodeAction {
  return {
    title: plan.title,
    kind: CodeActionKind.QuickFix,
    ...(diagnostics.length > 0 ? { diagnostics: [...diagnostics] } : {}),
    data: dataOf(plan, want.span, path, version),
  };
}

function dataOf(plan: SketchPlan, span: Span, path: string, version: number): ActionData {
  return { path, version, scope: "plan", id: span.path, start: span.start, end: span.end, title: plan.title };
}

/** `no timer drives D7; D9 and D3 can`. */
function whyNot({ why, moves }: WantPlans): string {
  const reason = why ?? "no setting meets it";
  const [best] = moves;
  return best === undefined || reason.includes(best.label) ? reason : `${reason}; ${best.label}: ${best.because}`;
}

/** The plan that was chosen: proved when it was offered, and the text has not changed since. */
export function resolvedPlan(judged: Judged, wanted: ActionData, stop: Stop): ResolvedAction {
  for (const { span, placed } of wantVerdicts(judged.sketch.analysis)) {
    if (span.path !== wanted.id || span.start !== wanted.start || span.end !== wanted.end) continue;
    const plan = plansOf(judged, placed, stop).plans.find((each) => each.title === wanted.title);
    if (plan !== undefined) return { kind: "edits", byUri: judged.places.edits(plan.edits) };
  }
  return { kind: "refused", reason: "the want is no longer there, or the sketch has changed" };
}

/** A lens with the verdict above each want, and one for its best plan, whose words are worked out when it is shown. */
export function wantLenses(judged: Judged, path: string, version: number): CodeLens[] {
  const lenses: CodeLens[] = [];
  const seen = new Map<string, JudgedWant[]>();
  for (const want of wantVerdicts(judged.sketch.analysis)) {
    if (want.span.path !== path) continue;
    const key = String(want.span.start);
    seen.set(key, [...(seen.get(key) ?? []), want]);
  }
  for (const wants of seen.values()) {
    const range = judged.places.range(wants[0]!.span);
    lenses.push({ range, command: { title: wantLensText(wants), command: "" } });
    const open = wants.find((want) => want.met !== "yes");
    if (open !== undefined)
      lenses.push({ range, data: { path, version, start: open.span.start, end: open.span.end, pin: open.want.pin } });
  }
  return lenses;
}

/** The best plan's title, with what applies it; the reason where there is none. */
export function lensTitle(judged: Judged, asks: LensTitle["asks"], stop: Stop): LensTitle["answer"] {
  const want = wantVerdicts(judged.sketch.analysis).find(
    ({ span, want: { pin } }) => span.path === asks.path && span.start === asks.start && pin === asks.pin,
  );
  if (want === undefined) return { title: "", command: "", arguments: [] };
  const answer = plansOf(judged, want.placed, stop);
  const [best] = answer.plans;
  if (best === undefined) return { title: `no plan: ${whyNot(answer)}`, command: "", arguments: [] };
  return {
    title: best.title,
    command: APPLY_PLAN_COMMAND,
    arguments: [dataOf(best, want.span, asks.path, asks.version)],
  };
}

function linesOf(judged: Judged, span: Span): Range {
  const text = judged.places.text(span.path) ?? "";
  return judged.places.range({
    path: span.path,
    start: lineOf(text, span.start).start,
    end: lineOf(text, span.end).end,
  });
}

function meets(left: Range, right: Range): boolean {
  const before = (a: Range["start"], b: Range["start"]): boolean =>
    a.line < b.line || (a.line === b.line && a.character < b.character);
  return !before(right.end, left.start) && !before(left.end, right.start);
}
