/** What a rewriting is: a change of the text that leaves what the program does as it is. */
import type { Reading, Sketch } from "./sketch.js";

/** One of a list, or a number below a bound; the same choices for the same number of a run. */
export interface Choice {
  of<T>(list: readonly T[]): T | undefined;
  below(bound: number): number;
}

export interface Rewriting {
  readonly name: string;
  /**
   * It makes the chip do more on the way, calls or rounds. How long a state stands in setup depends on that, and with it
   * which passing states are worth a line: only what runs in the end is compared.
   */
  readonly slower?: boolean;
  /** Null where the sketch has nothing that can be rewritten so. */
  rewrite(reading: Reading, choice: Choice): Sketch | null;
}

/** Numbers out of a number: small, fast, the same everywhere (a linear congruence). */
export function choiceFrom(seed: number): Choice {
  let state = (seed * 2654435761 + 12345) >>> 0;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  for (let n = 0; n < 4; n++) next();
  return {
    of: (list) => list[Math.floor(next() * list.length)],
    below: (bound) => Math.floor(next() * bound),
  };
}

/** Names that no sketch has. */
let made = 0;
export function freshName(stem: string): string {
  made++;
  return `${stem}Rewritten${made}`;
}
export function restartNames(): void {
  made = 0;
}
