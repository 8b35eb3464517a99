/** A register state near the predicted one that would give what was measured, and the slip that leads there. */
import type { ReportedRegister } from "../../shared-model/report.js";
import { showHz } from "../look/show.js";

export interface Explanation {
  /** What the pin would give, nominal clock. */
  readonly frequencyHz: number;
  /** The registers that differ from the prediction, by name; none where another clock or pin explains it. */
  readonly registers: Readonly<Record<string, ReportedRegister>>;
  /** One clause: `OCR2A = 250 in place of 248 (one bit: bit 1 set as well)`. */
  readonly slip: string;
  /** 1 is the smallest slip. */
  readonly rank: number;
  /** False for another setting altogether, to which no small slip leads. */
  readonly near: boolean;
}

/** `OCR2A = 250 in place of 248 (one bit: bit 1 set as well) would give 1000 Hz`. */
export function explanationWords({ slip, frequencyHz }: Explanation): string {
  return `${slip} would give ${showHz(frequencyHz)}`;
}
