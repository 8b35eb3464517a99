/** How a want is met, and why. */

/** `marginal`: met at the nominal clock, not over the whole tolerance of the clock. */
export type Verdict = "yes" | "marginal" | "no" | "unknown";

export interface Judgement {
  readonly met: Verdict;
  /** One clause each, with numbers; at least one. */
  readonly reasons: readonly string[];
  /** Those of the reasons, the last ones, that stand beside the verdict whatever it is: a floating pin, a filter's ripple. */
  readonly beside?: readonly string[];
}
