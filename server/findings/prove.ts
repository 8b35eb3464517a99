/**
 * Whether a fix keeps its promise: its edit is made in memory, the sketch analysed again, and the two compared. Nothing is
 * edited for real before this says yes.
 */

import { type AnalyseInput, analyse } from "../analyse.js";
import type { Analysis, PinHistory, PinSignal } from "../analysis.js";
import { applyToSources, movedOffset } from "../edits/apply.js";
import type { TextEdit } from "../edits/text-edit.js";
import { keepClock } from "../look/bench-clock.js";
import type { Finding, Fix } from "./finding.js";
import { findingsOf, gravity } from "./findings.js";

export type Proof = { readonly edits: readonly TextEdit[] } | { readonly refused: string };

/** `input` is what `analysis` was made from. Costs one analysis of the whole sketch. */
export function proveFix(input: AnalyseInput, analysis: Analysis, finding: Finding, fix: Fix): Proof {
  const edits = fix.edit();
  if (edits.length === 0) return { refused: "there is nothing to edit here" };
  const foreign = edits.find((edit) => analysis.files.find((file) => file.path === edit.span.path)?.kind !== "sketch");
  if (foreign !== undefined) return { refused: `it would edit ${foreign.span.path}, which is not part of the sketch` };
  const after = analyse({ ...input, sources: applyToSources(input.sources, edits) });
  keepClock(after, analysis);
  return judge(analysis, after, finding, fix, edits);
}

function judge(before: Analysis, after: Analysis, finding: Finding, fix: Fix, edits: readonly TextEdit[]): Proof {
  const now = findingsOf(after);
  if (now.some((candidate) => isSame(candidate, finding, edits)))
    return { refused: `the finding ${finding.id} would still be there` };
  const grave = graver(findingsOf(before), now, finding);
  if (grave !== undefined) return { refused: `a new finding would come: ${grave.id}, ${grave.message}` };
  const moved = before.pins.find(
    (pin) => !fix.pins.includes(pin.pin) && signalsKey(pin) !== signalsKey(pinOf(after, pin.pin)),
  );
  if (moved !== undefined) return { refused: `the signal of pin ${moved.pin} would change` };
  if (fix.safety.kind === "safe" && statesKey(before) !== statesKey(after))
    return { refused: "the registers would not be the same" };
  if (after.gaps.length > before.gaps.length) return { refused: "the edited sketch would be understood less well" };
  return { edits };
}

/** Whether a finding after the edit is the old one at its moved place. */
function isSame(candidate: Finding, finding: Finding, edits: readonly TextEdit[]): boolean {
  if (candidate.id !== finding.id || candidate.span.path !== finding.span.path) return false;
  const here = edits.filter((edit) => edit.span.path === finding.span.path);
  const start = movedOffset(finding.span.start, here);
  const end = movedOffset(finding.span.end, here);
  return candidate.span.start <= Math.max(end, start) && candidate.span.end >= start;
}

/** A finding that was not there before and is graver than the one that goes, or an error. */
function graver(before: readonly Finding[], after: readonly Finding[], finding: Finding): Finding | undefined {
  const counts = new Map<string, number>();
  for (const each of before) counts.set(each.id, (counts.get(each.id) ?? 0) + 1);
  for (const each of after) {
    // A bench reading is of the sketch as it was.
    if (each.id === "reading-disagrees") continue;
    const left = (counts.get(each.id) ?? 0) - 1;
    counts.set(each.id, left);
    if (left < 0 && (gravity(each.severity) < gravity(finding.severity) || each.severity === "error")) return each;
  }
  return undefined;
}

function pinOf(analysis: Analysis, pin: string): PinHistory | undefined {
  return analysis.pins.find((candidate) => candidate.pin === pin);
}

/**
 * What a pin puts out, without the places and words that an edit may move. A pin that is not driven in setup says no more than
 * one of which setup tells nothing: that is so where no time passes there.
 */
function signalsKey(pin: PinHistory | undefined): string {
  const told = (pin?.signals ?? []).filter((signal) => signal.regime === "running" || signal.kind !== "not driven");
  return JSON.stringify([...new Set(told.map(signalKey))].sort());
}

function signalKey(signal: PinSignal): string {
  const { regime, kind, level, driver, frequencyHz, duty, highTicks, periodTicks, steps, top, prescaler } = signal;
  return JSON.stringify({
    regime,
    kind,
    level,
    driver,
    frequencyHz,
    duty,
    highTicks,
    periodTicks,
    steps,
    top,
    prescaler,
  });
}

function statesKey(analysis: Analysis): string {
  return JSON.stringify(
    analysis.timers.map((history) =>
      history.states.map((state) => JSON.stringify([state.regime, state.snapshot])).sort(),
    ),
  );
}
