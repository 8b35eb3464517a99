/**
 * Quick fixes on the engine's side: what is offered for a stretch of text, and the proved edits of one that was chosen. Narrowest
 * first: fix this, fix all of this rule, allow it here, documentation; only what keeps every register as it is counts as safe.
 */
import { type CodeAction, CodeActionKind, type Range } from "vscode-languageserver/node";
import { EXPLAIN_FINDING_COMMAND } from "../../shared-model/protocol.js";
import type { Span } from "../../shared-model/span.js";
import { indentAt, lineBreak, lineOf } from "../edits/source-text.js";
import type { TextEdit } from "../edits/text-edit.js";
import type { Finding, Fix } from "../findings/finding.js";
import { proveFix } from "../findings/prove.js";
import type { Stop } from "../limits.js";
import { planActions, resolvedPlan } from "./offered-plans.js";
import type { ActionData, ActionRequest, ResolvedAction } from "./questions.js";
import type { AnalysedSketch } from "./sketch-cache.js";
import type { DocumentPlaces } from "./to-lsp.js";

export const FIX_ALL_KIND = `${CodeActionKind.SourceFixAll}.pulsewright`;

/** A sketch with its findings, as actions need them. */
export interface Judged {
  readonly sketch: AnalysedSketch;
  readonly findings: readonly Finding[];
  readonly places: DocumentPlaces;
}

/** `version`: of the document that was asked about. */
export function offeredActions(
  judged: Judged,
  path: string,
  version: number,
  request: ActionRequest,
  stop: Stop,
): CodeAction[] {
  const actions: CodeAction[] = [];
  const here = judged.findings.filter((finding) => finding.span.path === path);
  if (isWanted(CodeActionKind.QuickFix, request.only)) {
    const touched = here.filter((finding) => touches(judged.places.range(finding.span), request.range));
    const groups = touched.map((finding) => actionsFor(judged, finding, here, version, request.explains));
    // All fixes of all findings before anything that only silences or explains.
    for (const group of groups) actions.push(...group[0]);
    actions.push(...planActions(judged, path, version, request, stop));
    for (const rank of [1, 2, 3] as const) for (const group of groups) actions.push(...group[rank]);
  }
  if (
    request.only?.some((kind) => FIX_ALL_KIND === kind || FIX_ALL_KIND.startsWith(`${kind}.`)) &&
    safeEdits(here, undefined).length > 0
  ) {
    actions.push({
      title: "Fix everything that keeps the registers as they are",
      kind: FIX_ALL_KIND,
      data: { path, version, scope: "all safe", id: "", start: 0, end: 0, title: "" } satisfies ActionData,
    });
  }
  return request.eager ? actions.map((action) => withEdit(judged, action, stop)) : actions;
}

/** By rank: fixes, fix all of the rule, allow here, documentation. */
function actionsFor(
  judged: Judged,
  finding: Finding,
  here: readonly Finding[],
  version: number,
  explains: boolean,
): [CodeAction[], CodeAction[], CodeAction[], CodeAction[]] {
  const diagnostics = [judged.places.diagnostic(finding)];
  const { path, start, end } = finding.span;
  const data = { path, version, id: finding.id, start, end };
  // Auto Fix takes the preferred one blindly: only what changes nothing but the text qualifies.
  const preferred = safeFixOf(finding);
  const fixes = finding.fixes.map(
    (fix): CodeAction => ({
      title: titleOf(fix),
      kind: CodeActionKind.QuickFix,
      diagnostics,
      ...(fix === preferred ? { isPreferred: true } : {}),
      data: { ...data, scope: "one", title: fix.title } satisfies ActionData,
    }),
  );
  const alike = safeEdits(here, finding.id).length;
  const all: CodeAction[] =
    alike < 2
      ? []
      : [
          {
            title: `Fix all ${alike} "${finding.id}" in this file`,
            kind: CodeActionKind.QuickFix,
            diagnostics,
            data: { ...data, scope: "rule", title: "" } satisfies ActionData,
          },
        ];
  const allow: CodeAction[] = CANNOT_BE_ALLOWED.has(finding.id)
    ? []
    : [
        {
          title: `Allow "${finding.id}" here`,
          kind: CodeActionKind.QuickFix,
          diagnostics,
          edit: { changes: judged.places.edits([allowance(judged, finding)]) },
        },
      ];
  const explain: CodeAction[] = explains
    ? [
        {
          title: `What "${finding.id}" means`,
          kind: CodeActionKind.QuickFix,
          diagnostics,
          command: { title: `What "${finding.id}" means`, command: EXPLAIN_FINDING_COMMAND, arguments: [finding.id] },
        },
      ]
    : [];
  return [fixes, all, allow, explain];
}

/** A comment cannot be excused by a comment. */
const CANNOT_BE_ALLOWED: ReadonlySet<string> = new Set(["unread-comment"]);

function titleOf(fix: Fix): string {
  return fix.safety.kind === "safe" ? fix.title : `${fix.title} (${fix.safety.because})`;
}

function allowance(judged: Judged, finding: Finding): TextEdit {
  const { path, start } = finding.span;
  const text = judged.places.text(path) ?? "";
  const at = lineOf(text, start).start;
  const comment = `${indentAt(text, start)}// for pulsewright: allow ${finding.id} because it is meant${lineBreak(text)}`;
  return { span: { path, start: at, end: at }, text: comment };
}

/** Edits of the action that was chosen, proved by analysing the edited sketch. */
export function resolvedAction(judged: Judged, wanted: ActionData, stop: Stop): ResolvedAction {
  if (wanted.scope === "plan") return resolvedPlan(judged, wanted, stop);
  const inFile = judged.findings.filter((finding) => finding.span.path === wanted.path);
  if (wanted.scope === "one") {
    const finding = inFile.find(
      (each) => each.id === wanted.id && each.span.start === wanted.start && each.span.end === wanted.end,
    );
    const fix = finding?.fixes.find((each) => each.title === wanted.title);
    if (finding === undefined || fix === undefined)
      return { kind: "refused", reason: "the finding is no longer there" };
    return proved(judged, finding, fix, stop);
  }
  const safe = safeEdits(inFile, wanted.scope === "rule" ? wanted.id : undefined);
  const first = safe[0];
  if (first === undefined) return { kind: "refused", reason: "there is nothing left to fix" };
  const together: Fix = {
    title: wanted.title,
    safety: { kind: "safe" },
    pins: [],
    edit: () => safe.flatMap(({ edits }) => edits),
  };
  return proved(judged, first.finding, together, stop);
}

function proved(judged: Judged, finding: Finding, fix: Fix, stop: Stop): ResolvedAction {
  const { sketch } = judged;
  const proof = proveFix(sketch.input(stop), sketch.analysis, finding, fix);
  if ("refused" in proof) return { kind: "refused", reason: proof.refused };
  return { kind: "edits", byUri: judged.places.edits(proof.edits) };
}

/**
 * The fix that may be taken without looking: the finding's first, where it keeps the registers. A safe one further down only says
 * more clearly what the line does, which hides a slip rather than mending it.
 */
function safeFixOf(finding: Finding): Fix | undefined {
  const first = finding.fixes[0];
  return first?.safety.kind === "safe" ? first : undefined;
}

/** The safe fix of each finding (of one rule, or of all) that touches this file alone and no edit before it. */
function safeEdits(
  inFile: readonly Finding[],
  id: string | undefined,
): { readonly finding: Finding; readonly edits: readonly TextEdit[] }[] {
  const chosen: { finding: Finding; edits: readonly TextEdit[] }[] = [];
  const taken: Span[] = [];
  for (const finding of inFile) {
    if (id !== undefined && finding.id !== id) continue;
    const edits = safeFixOf(finding)?.edit() ?? [];
    if (
      edits.length === 0 ||
      edits.some(({ span }) => span.path !== finding.span.path || taken.some((other) => overlap(span, other)))
    )
      continue;
    taken.push(...edits.map((edit) => edit.span));
    chosen.push({ finding, edits });
  }
  return chosen;
}

function overlap(left: Span, right: Span): boolean {
  return left.start <= right.end && right.start <= left.end;
}

/** For clients that take edits only with the offer. */
function withEdit(judged: Judged, action: CodeAction, stop: Stop): CodeAction {
  const { data, ...rest } = action;
  if (data === undefined) return action;
  const resolved = resolvedAction(judged, data as ActionData, stop);
  if (resolved.kind === "refused") return { ...rest, disabled: { reason: resolved.reason } };
  return {
    ...rest,
    edit: { changes: Object.fromEntries(Object.entries(resolved.byUri).map(([uri, edits]) => [uri, [...edits]])) },
  };
}

function isWanted(kind: string, only: readonly string[] | undefined): boolean {
  return only === undefined || only.length === 0 || only.some((each) => kind === each || kind.startsWith(`${each}.`));
}

function touches(finding: Range, asked: Range): boolean {
  const before = (a: Range["start"], b: Range["start"]): boolean =>
    a.line < b.line || (a.line === b.line && a.character < b.character);
  return !before(asked.end, finding.start) && !before(finding.end, asked.start);
}
