/** A register state near the predicted one that would give what was measured, and the slip that leads there. */
import type { ReportedRegister } from "../../shared-model/report.js";

export interface Explanation {
  /** What the pin would give, nominal clock. */
  readonly frequencyHz: number;
  /** The registers that differ from the prediction, by name. */
  readonly registers: Readonly<Record<string, ReportedRegister>>;
  /** One clause: `TOP 250 in place of 248 (OCR2A: one bit)`. */
  readonly slip: string;
  /** 1 is the smallest slip. */
  readonly rank: number;
}
