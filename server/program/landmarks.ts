/**
 * Values at which a growing variable is likely to stop: the constants that it is compared with, and those that one more
 * step leads to. A help for widening; nothing that is true depends on it.
 */
import type { Variable } from "./ir.js";

/** As many are kept for one variable. */
const MOST = 16;

export class Landmarks {
  private readonly limits = new Map<Variable, Set<number>>();
  private readonly steps = new Map<Variable, Set<number>>();

  /** Something worked out of these variables is compared with a constant. */
  compared(variables: readonly Variable[], constant: number): void {
    for (const variable of variables) put(this.limits, variable, constant);
  }

  /** A constant is added to the variable, or taken from it. */
  stepped(variable: Variable, by: number): void {
    put(this.steps, variable, by);
  }

  /** Sets `landmarks` on every variable that has some. */
  settle(): void {
    for (const [variable, limits] of this.limits) {
      const found = new Set(limits);
      for (const step of this.steps.get(variable) ?? []) {
        for (const limit of limits) for (const at of [limit - step, limit + step]) if (found.size < MOST) found.add(at);
      }
      variable.landmarks = [...found];
    }
  }
}

function put(into: Map<Variable, Set<number>>, variable: Variable, value: number): void {
  const present = into.get(variable);
  if (present === undefined) into.set(variable, new Set([value]));
  else if (present.size < MOST) present.add(value);
}
