/** How a want is met, and why. */

/** `marginal`: met at the nominal clock, not over the whole tolerance of the clock. */
export type Verdict = "yes" | "marginal" | "no" | "unknown";

export interface Judgement {
  readonly met: Verdict;
  /** One clause each, with numbers; at least one. */
  readonly reasons: readonly string[];
}
