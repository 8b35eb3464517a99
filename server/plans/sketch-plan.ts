/** A plan for a sketch: what it promises, and the edit that makes it true. The edit is made on demand and proved before it is shown. */
import type { Plan } from "../../shared-model/plans/plan.js";
import type { TextEdit } from "../edits/text-edit.js";

export interface SketchPlan {
  readonly plan: Plan;
  /** A verb phrase: `Set timer 2 for 1 kHz on D3: phase correct, prescaler 32, TOP 250 (exact, 251 steps)`. */
  readonly title: string;
  /** Pins whose signals it means to change (`PinHistory.pin`). */
  readonly pins: readonly string[];
  /** The register code alone, as it would stand in `setup`. */
  readonly code: string;
  /** Edits of the sketch's own files; empty where the code cannot be placed. */
  edit(): readonly TextEdit[];
}
