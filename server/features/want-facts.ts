/** What is known of a want at a place: each of its pins with verdict and what it gives, and what the specification says. */
import type { ClockSpread } from "../../shared-model/clock-spread.js";
import type { Move } from "../../shared-model/plans/plan.js";
import type { Span } from "../../shared-model/span.js";
import type { Specification } from "../../shared-model/specifications.js";
import { type Given, givenBy } from "../../shared-model/wants/given.js";
import type { Analysis } from "../analysis.js";
import { clockSpread } from "../look/bench-clock.js";
import { type JudgedWant, wantVerdicts } from "../look/judged-wants.js";
import { pinLabel } from "../look/look.js";
import { nearestTop, type Setting } from "../look/want-causes.js";
import { movesForWant } from "../plans/plans-for-want.js";

export interface WantedPin {
  readonly judged: JudgedWant;
  /** `D3`; as written where the pin is not known. */
  readonly label: string;
  readonly given: Given;
  /** The TOP that comes nearest to the wanted frequency with the present mode and prescaler, where it is not set already. */
  readonly nearest: Setting | null;
  /** The pin that would do better, or at all. */
  readonly move: Move | null;
}

export interface WantFacts {
  readonly kind: "want";
  readonly span: Span;
  /** In the order in which they are written; at least one. */
  readonly pins: readonly WantedPin[];
  readonly specification: Specification | null;
  readonly clock: ClockSpread;
  readonly supplyVolts: number | null;
}

export function wantFactsAt(analysis: Analysis, path: string, offset: number): WantFacts | null {
  const here = wantVerdicts(analysis).filter(
    ({ span }) => span.path === path && offset >= span.start && offset < Math.max(span.end, span.start + 1),
  );
  const [first] = here;
  if (first === undefined) return null;
  const id = first.want.specification;
  return {
    kind: "want",
    span: first.span,
    pins: here.map((judged) => wantedPin(analysis, judged)),
    specification: analysis.specifications.find((candidate) => candidate.id === id) ?? null,
    clock: clockSpread(analysis),
    supplyVolts: analysis.target.supply?.volts ?? null,
  };
}

function wantedPin(analysis: Analysis, judged: JudgedWant): WantedPin {
  const { want, pin, signals } = judged;
  const pulse = signals.find((signal) => signal.kind === "pulse");
  const nearest =
    // A frequency that has no upper end has no value to come near to.
    pin === null ||
    pulse === undefined ||
    want.frequency === undefined ||
    want.frequency.max === Number.POSITIVE_INFINITY
      ? null
      : nearestTop(analysis, pin, pulse, want.frequency.hz);
  const already = pulse?.top !== null && pulse?.top?.min === nearest?.top;
  return {
    judged,
    label: pin === null ? want.pin : pinLabel(analysis, pin),
    given: givenBy(signals, clockSpread(analysis)),
    nearest: already ? null : nearest,
    move: movesForWant(analysis, judged.placed)[0] ?? null,
  };
}
