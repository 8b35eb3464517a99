/** One bench reading beside the prediction: whether it fits, what clock error it tells of, and what would explain a misfit. */
import type { Bounds } from "../../shared-model/signal.js";
import type { ReadingComment } from "../../shared-model/wants/comment.js";
import type { PinHistory, PlacedComment } from "../analysis.js";
import type { Explanation } from "./explanation.js";

export interface FittedReading {
  readonly reading: ReadingComment;
  readonly placed: PlacedComment;
  /** Null where the name is no pin of this board, or nothing is known of it. */
  readonly pin: PinHistory | null;
  readonly fits: "yes" | "no" | "unknown";
  /** Relative clock error that this reading alone allows: 0.001 is a clock 0.1 % fast; null where it tells nothing. */
  readonly clockError: Bounds<number> | null;
  /** For a misfit: nearest slips first. */
  readonly explanations: readonly Explanation[];
  /** Why it is unknown, or what was compared: one clause. */
  readonly because: string;
}
