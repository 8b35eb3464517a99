/** Plans for a want that is not written yet: it is written in memory, planned for, and both edits are counted in the text as it is. */
import type { UnreadWant } from "../../shared-model/protocol.js";
import { type AnalyseInput, analyse } from "../analyse.js";
import type { Analysis } from "../analysis.js";
import { applyToSources } from "../edits/apply.js";
import { lineBreak, lineOf } from "../edits/source-text.js";
import type { TextEdit } from "../edits/text-edit.js";
import { plansForWant, type WantPlans } from "./plans-for-want.js";

export type NewWantPlans =
  | { readonly kind: "unread"; readonly unread: UnreadWant }
  | {
      readonly kind: "plans";
      /** Spans of their edits count in the text without the want. */
      readonly plans: WantPlans;
      /** The edit that writes the want. */
      readonly want: TextEdit;
    };

const cache = new WeakMap<Analysis, Map<string, NewWantPlans>>();

export const EXPECTED_WANT = "what the pin shall put out, such as 1 kHz +-2 %";

/** What stands before a want's own text. */
export function wantOpening(pin: string): string {
  return `// wants ${pin}: `;
}

/** `want` is what follows the colon. Costs an analysis beside those of the plans; what was worked out once is kept. */
export function plansForNewWant(input: AnalyseInput, analysis: Analysis, pin: string, want: string): NewWantPlans {
  const kept = cache.get(analysis) ?? new Map<string, NewWantPlans>();
  cache.set(analysis, kept);
  const key = `${pin}: ${want}`;
  const known = kept.get(key);
  if (known !== undefined) return known;
  const made = workOut(input, analysis, pin, want);
  kept.set(key, made);
  return made;
}

function workOut(input: AnalyseInput, analysis: Analysis, pin: string, want: string): NewWantPlans {
  const edit = wantEdit(analysis, pin, want.replace(/\s+/g, " ").trim());
  const sources = applyToSources(input.sources, [edit]);
  const written = { ...input, sources };
  const after = analyse(written);
  const { path, start } = edit.span;
  const placed = after.comments.find((candidate) => candidate.span.path === path && candidate.span.start === start);
  if (placed?.comment.kind !== "want") {
    const unread = placed?.comment.kind === "unread" ? placed.comment : null;
    return {
      kind: "unread",
      unread: {
        column: Math.max(0, (unread?.column ?? 0) - wantOpening(pin).length),
        expected: unread?.expected ?? EXPECTED_WANT,
      },
    };
  }
  const found = plansForWant(written, after, placed);
  const plans = found.plans.map((plan) => ({ ...plan, edits: plan.edits.map((each) => without(edit, each)) }));
  return { kind: "plans", plans: { ...found, plans }, want: edit };
}

/** Below the comments of ours that open the main file's lines, else above everything. */
function wantEdit(analysis: Analysis, pin: string, want: string): TextEdit {
  const main = analysis.files[0]!;
  const ours = analysis.comments.filter(
    ({ span, inFunction }) =>
      span.path === main.path && inFunction === null && lineOf(main.text, span.start).start === span.start,
  );
  const last = ours.at(-1);
  const end = last === undefined ? 0 : main.text.indexOf("\n", last.span.end) + 1;
  // A last line without an end cannot be followed by another.
  const at = last !== undefined && end === 0 ? last.span.start : end;
  return { span: { path: main.path, start: at, end: at }, text: `${wantOpening(pin)}${want}${lineBreak(main.text)}` };
}

/** An edit of the text with the want, as one of the text without it. */
function without(want: TextEdit, edit: TextEdit): TextEdit {
  const { path, start, end } = edit.span;
  if (path !== want.span.path || start < want.span.start + want.text.length) return edit;
  return { ...edit, span: { path, start: start - want.text.length, end: end - want.text.length } };
}
