/** Wording of the oracle's result: counts, shares, and the failing sketches with their reasons. */
import type { Verdict } from "./judge.js";

export interface Summary {
  readonly lines: readonly string[];
  readonly passed: number;
  readonly failed: number;
}

const REASONS_SHOWN = 3;

export function summarise(
  verdicts: readonly Verdict[],
  broken: readonly { path: string; problem: string }[],
  listInexact: boolean,
): Summary {
  const lines: string[] = [];
  const unsound = verdicts.filter(({ exceptions }) => exceptions.length > 0);
  for (const { path, problem } of broken) lines.push(`BROKEN ${path}: ${problem}`);
  for (const { path, exceptions } of unsound) {
    lines.push(`OUTSIDE ${path}`);
    for (const reason of exceptions.slice(0, REASONS_SHOWN)) lines.push(`    ${reason}`);
    if (exceptions.length > REASONS_SHOWN) lines.push(`    and ${exceptions.length - REASONS_SHOWN} more`);
  }
  const asked = verdicts.filter(({ inexact }) => inexact !== null);
  const exact = asked.filter(({ inexact }) => inexact!.length === 0);
  const steady = asked.filter(({ varying, routines }) => !varying && !routines);
  const steadyExact = steady.filter(({ inexact }) => inexact!.length === 0);
  if (listInexact) {
    for (const { path, inexact } of asked) {
      if (inexact!.length === 0) continue;
      lines.push(`INEXACT ${path}`);
      for (const reason of inexact!.slice(0, REASONS_SHOWN)) lines.push(`    ${reason}`);
    }
  }
  const sum = (pick: (verdict: Verdict) => number): number => verdicts.reduce((total, one) => total + pick(one), 0);
  const pins = sum((one) => one.pins);
  const unknown = sum((one) => one.unknownPins);
  const withGaps = verdicts.filter(({ gaps }) => gaps > 0).length;
  lines.push(
    `sketches: ${verdicts.length + broken.length}, compared ${sum((one) => one.statesSeen)} register states and ${sum((one) => one.signalsSeen)} signals`,
    `sound: ${unsound.length} sketches outside the report, ${broken.length} broken`,
    `exact: ${exact.length} of ${asked.length} deterministic (${share(exact.length, asked.length)}); of the ${steady.length} with one running state and no interrupt routine ${steadyExact.length} (${share(steadyExact.length, steady.length)})`,
    `unknown: ${unknown} of ${pins} timer pins (${share(unknown, pins)}); sketches with gaps: ${withGaps}`,
  );
  return {
    lines,
    passed: verdicts.length - unsound.length,
    failed: unsound.length + broken.length,
  };
}

function share(part: number, whole: number): string {
  return whole === 0 ? "none" : `${((100 * part) / whole).toFixed(1)} %`;
}
