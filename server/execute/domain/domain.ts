/** What every abstract domain of the engine offers; the law kit in test/laws checks it on each of them. Knows nothing of C. */

import type { AnyIntegerType } from "./integer-type.js";

/**
 * A set of possible values, described by a `T`. Bottom (the empty set) is never represented: where it could arise the
 * answer is `null`. Descriptions are canonical: two that mean the same set look the same.
 */
export interface Domain<T> {
  /** Everything the type can hold. */
  top(type: AnyIntegerType): T;
  /** Is every value of `a` one of `b`? */
  leq(a: T, b: T): boolean;
  equal(a: T, b: T): boolean;
  /** The smallest description that holds both. */
  join(a: T, b: T): T;
  /** The smallest description of what is in both; null where nothing is. */
  meet(a: T, b: T, type: AnyIntegerType): T | null;
  /** Holds both, and changes only finitely often in a row; `round` counts the turns of the loop from 0. */
  widen(before: T, after: T, round: number, type: AnyIntegerType): T;
  show(a: T, type: AnyIntegerType): string;
  /** One reason why `a` is not within `b`; null where it is. */
  whyNotLeq(a: T, b: T): string | null;
}
