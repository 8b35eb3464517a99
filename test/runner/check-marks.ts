/** Marks against what the tool says: one to one, missing and surplus told apart. */
import type { Analysis, PinSignal } from "../../server/analysis.js";
import { hover } from "../../server/features/hover.js";
import { ALL_HINTS, inlayHints } from "../../server/features/inlay-hints.js";
import type { Finding } from "../../server/findings/finding.js";
import { wantVerdicts } from "../../server/look/judged-wants.js";
import { pinLabel } from "../../server/look/look.js";
import type { RegisterValue } from "../../shared-model/register-value.js";
import type { AnalysedSketch } from "./analysed-sketch.js";
import type { Mark } from "./marks.js";
import { contains, equals, readClaim, showSignal } from "./signal-claim.js";

export interface Checked {
  /** Marks that nothing meets. */
  readonly missing: string[];
  /** What the tool says without a mark. */
  readonly surplus: string[];
}

export function lineNumber(text: string, offset: number): number {
  return text.slice(0, offset).split("\n").length;
}

export function checkMarks(sketch: AnalysedSketch, findings: readonly Finding[]): Checked {
  const checked: Checked = { missing: [...sketch.problems], surplus: [] };
  checkFindings(sketch, findings, checked);
  checkHovers(sketch, checked);
  checkHints(sketch, checked);
  checkSignals(sketch, checked);
  checkRegisters(sketch, checked);
  checkWants(sketch, checked);
  return checked;
}

function of<K extends Mark["kind"]>(sketch: AnalysedSketch, kind: K): readonly Extract<Mark, { kind: K }>[] {
  return sketch.marks.filter((mark): mark is Extract<Mark, { kind: K }> => mark.kind === kind);
}

/** Whether a mark holds, turned round for `todo`: such a mark fails on the day it comes right. */
function told(mark: Mark, holds: boolean, got: string, checked: Checked): void {
  if (mark.claim === "todo") {
    if (holds) checked.missing.push(`line ${mark.line}: came right, take the todo off: ${mark.text}`);
  } else if (!holds) checked.missing.push(`line ${mark.line}: ${mark.text}\n      got: ${got}`);
}

function checkFindings(sketch: AnalysedSketch, findings: readonly Finding[], checked: Checked): void {
  const left = [...findings];
  for (const mark of of(sketch, "finding")) {
    const index = left.findIndex(
      (finding) =>
        finding.id === mark.id &&
        (mark.at === null || (finding.span.start === mark.at.start && finding.span.end === mark.at.end)) &&
        mark.quotes.every((quote) => finding.message.includes(quote)),
    );
    if (index >= 0) left.splice(index, 1);
    const near = findings
      .filter((finding) => finding.id === mark.id)
      .map((finding) => showFinding(sketch.text, finding));
    told(mark, index >= 0, near.join("; ") || "no such finding", checked);
  }
  for (const finding of left) checked.surplus.push(showFinding(sketch.text, finding));
}

export function showFinding(text: string, finding: Finding): string {
  const { start, end } = finding.span;
  return `line ${lineNumber(text, start)} \`${text.slice(start, end)}\` ${finding.severity} ${finding.id}: ${finding.message}`;
}

function checkHovers(sketch: AnalysedSketch, checked: Checked): void {
  for (const mark of of(sketch, "hover")) {
    const found = hover(sketch.analysis, sketch.path, mark.at?.start ?? 0);
    const markdown = found?.markdown ?? "nothing";
    told(
      mark,
      mark.quotes.every((quote) => markdown.includes(quote)) && (found !== null || mark.quotes[0] === "nothing"),
      markdown,
      checked,
    );
  }
}

function checkHints(sketch: AnalysedSketch, checked: Checked): void {
  const marks = of(sketch, "hint");
  if (marks.length === 0) return;
  const left = [...inlayHints(sketch.analysis, sketch.path, { start: 0, end: sketch.text.length }, ALL_HINTS)];
  for (const mark of marks) {
    const index = left.findIndex(
      (hint) => hint.offset === mark.lineEnd && mark.quotes.every((quote) => plain(hint.text).includes(quote)),
    );
    const here = left.filter((hint) => hint.offset === mark.lineEnd).map((hint) => hint.text);
    if (index >= 0) left.splice(index, 1);
    told(mark, index >= 0, here.join(" ") || "no hint here", checked);
  }
  for (const hint of left) checked.surplus.push(`line ${lineNumber(sketch.text, hint.offset)} hint "${hint.text}"`);
}

function plain(text: string): string {
  return text.replace(/\u00a0/g, " ");
}

function checkSignals(sketch: AnalysedSketch, checked: Checked): void {
  const marks = of(sketch, "signal");
  const groups = new Map<string, typeof marks>();
  for (const mark of marks)
    groups.set(`${mark.pin} ${mark.regime}`, [...(groups.get(`${mark.pin} ${mark.regime}`) ?? []), mark]);
  for (const group of groups.values()) {
    const { pin, regime } = group[0]!;
    const reported = distinct(signalsOf(sketch.analysis, pin, regime));
    const left = [...reported];
    for (const mark of group) {
      const claim = readClaim(mark.says);
      if (claim === null) {
        checked.missing.push(`line ${mark.line}: not a signal: ${mark.says}`);
        continue;
      }
      const fits = mark.claim === "within" ? contains : equals;
      const index = left.findIndex((signal) => fits(claim, signal));
      const holds = index >= 0 || (mark.claim === "within" && reported.some((signal) => contains(claim, signal)));
      if (index >= 0) left.splice(index, 1);
      told(mark, holds, reported.map(showSignal).join(" | ") || "no signal", checked);
    }
    if (group.every((mark) => mark.claim !== "within" && mark.claim !== "todo")) {
      for (const signal of left) checked.surplus.push(`signal ${pin} ${regime}: ${showSignal(signal)}`);
    }
  }
}

export function signalsOf(analysis: Analysis, label: string, regime: string): readonly PinSignal[] {
  const pin = analysis.pins.find((candidate) => pinLabel(analysis, candidate) === label || candidate.port === label);
  return (pin?.signals ?? []).filter((signal) => signal.regime === regime);
}

function distinct(signals: readonly PinSignal[]): readonly PinSignal[] {
  return [...new Map(signals.map((signal) => [showSignal(signal), signal])).values()];
}

function checkRegisters(sketch: AnalysedSketch, checked: Checked): void {
  for (const mark of of(sketch, "register")) {
    const values = sketch.analysis.timers.flatMap((history) =>
      history.states
        .filter((state) => state.regime === mark.regime)
        .flatMap((state) => state.snapshot.registers[mark.register] ?? []),
    );
    const wanted = mark.says.split(/\s+or\s+/).map(Number);
    const got = [...new Set(values.flatMap((value) => allValues(value)))].sort((a, b) => a - b);
    const sorted = [...wanted].sort((a, b) => a - b);
    const holds =
      mark.claim === "within"
        ? wanted.every((value) => values.some((one) => value >= one.min && value <= one.max))
        : JSON.stringify(got) === JSON.stringify(sorted);
    told(mark, holds, got.length === 0 ? "no state" : got.join(", "), checked);
  }
}

function allValues(value: RegisterValue): readonly number[] {
  return value.values ?? [value.min, value.max];
}

function checkWants(sketch: AnalysedSketch, checked: Checked): void {
  const verdicts = wantVerdicts(sketch.analysis);
  for (const mark of of(sketch, "want")) {
    const above = verdicts.filter((verdict) => lineNumber(sketch.text, verdict.span.start) < mark.line).at(-1);
    told(
      mark,
      above?.met === mark.verdict,
      above === undefined ? "no want above" : `${above.met}: ${above.reasons.join("; ")}`,
      checked,
    );
  }
}
