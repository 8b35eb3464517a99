/** A plan for a sketch: what it promises, and the edits that make it true, proved before anybody sees them. */
import type { Plan } from "../../shared-model/plans/plan.js";
import type { TextEdit } from "../edits/text-edit.js";

export interface SketchPlan {
  readonly plan: Plan;
  /** A verb phrase: `Set timer 2 for 1 kHz on D3: phase correct, /32, TOP 250 (exact, 251 steps)`. */
  readonly title: string;
  /** Pins whose signals it means to change (`PinHistory.pin`). */
  readonly pins: readonly string[];
  /** The register code alone, as it stands in the edited sketch. */
  readonly code: string;
  /** Edits of the sketch's own files. */
  readonly edits: readonly TextEdit[];
  /** True where the duties written are spread over another share of the period than today: the ends stay, what lies between moves. */
  readonly spread: boolean;
  /** Where the sketch writes no duty yet: the register that takes it and its values; null where it does. */
  readonly dutyToWrite: string | null;
}
