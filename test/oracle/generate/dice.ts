/** The random generator's dice: the same seed gives the same program on every machine. */
import { numbers } from "../scenarios.js";

export class Dice {
  private readonly next: () => number;

  constructor(seed: number) {
    this.next = numbers(Math.imul(seed, 2654435761) >>> 0);
    for (let warm = 0; warm < 4; warm++) this.next();
  }

  /** An integer from `min` to `max`, both included. */
  int(min: number, max: number): number {
    return min + (this.next() % (max - min + 1));
  }

  /** True in `percent` of 100 cases. */
  chance(percent: number): boolean {
    return this.next() % 100 < percent;
  }

  pick<T>(from: readonly T[]): T {
    return from[this.next() % from.length]!;
  }

  /** Some of them, in order; at least `atLeast`. */
  some<T>(from: readonly T[], atLeast = 0): T[] {
    const chosen = from.filter(() => this.chance(50));
    while (chosen.length < Math.min(atLeast, from.length)) {
      const more = this.pick(from);
      if (!chosen.includes(more)) chosen.push(more);
    }
    return chosen;
  }
}
