/** The laws every abstract domain must keep, checked on whole small types and on random values of the wide ones. */

import fc from "fast-check";
import { expect, test } from "vitest";
import type { Domain } from "../../server/execute/domain/domain.js";
import type { AnyIntegerType } from "../../server/execute/domain/integer-type.js";

/** How often a random property is tried; divisible by 4. */
export const RUNS = 240;

/** A law over three values: null where it holds, else what is wrong. */
type Law<T> = (a: T, b: T, c: T) => string | null;

function broken(holds: boolean, what: string): string | null {
  return holds ? null : what;
}

function allOf(...results: (string | null)[]): string | null {
  return results.find((result) => result !== null) ?? null;
}

export function latticeLaws<T>(domain: Domain<T>, type: AnyIntegerType): Readonly<Record<string, Law<T>>> {
  const { leq, equal, join, widen, show, whyNotLeq } = domain;
  const meet = (a: T, b: T) => domain.meet(a, b, type);
  const sameOrNull = (a: T | null, b: T | null) => (a === null || b === null ? a === b : equal(a, b));
  return {
    "order is reflexive, and everything is below top": (a) =>
      allOf(broken(leq(a, a), "a ⋢ a"), broken(leq(a, domain.top(type)), "a ⋢ top")),
    "order is antisymmetric": (a, b) => broken(!(leq(a, b) && leq(b, a)) || equal(a, b), "a ⊑ b ⊑ a but a ≠ b"),
    "order is transitive": (a, b, c) => broken(!(leq(a, b) && leq(b, c)) || leq(a, c), "a ⊑ b ⊑ c but a ⋢ c"),
    "a reason is given exactly where the order does not hold": (a, b) =>
      broken((whyNotLeq(a, b) === null) === leq(a, b), `whyNotLeq says ${whyNotLeq(a, b)}`),
    "equal values look the same": (a, b) =>
      allOf(
        broken(equal(a, b) === (JSON.stringify(a) === JSON.stringify(b)), "equal and looking equal differ"),
        broken(!equal(a, b) || show(a, type) === show(b, type), "equal but shown differently"),
        broken(show(a, type) !== "", "nothing shown"),
      ),
    "join is the least upper bound": (a, b, c) => {
      const both = join(a, b);
      return allOf(
        broken(leq(a, both) && leq(b, both), "join does not hold its operands"),
        broken(!(leq(a, c) && leq(b, c)) || leq(both, c), "a smaller upper bound exists"),
      );
    },
    "join commutes, associates and repeats without effect": (a, b, c) =>
      allOf(
        broken(equal(join(a, b), join(b, a)), "a ⊔ b ≠ b ⊔ a"),
        broken(equal(join(join(a, b), c), join(a, join(b, c))), "brackets matter"),
        broken(equal(join(a, a), a), "a ⊔ a ≠ a"),
      ),
    "meet is the greatest lower bound": (a, b, c) => {
      const common = meet(a, b);
      const below = leq(c, a) && leq(c, b);
      return common === null
        ? broken(!below, "nothing in common, but c is in both")
        : allOf(
            broken(leq(common, a) && leq(common, b), "meet is not within its operands"),
            broken(!below || leq(c, common), "a greater lower bound exists"),
          );
    },
    "meet commutes and repeats without effect": (a, b) =>
      allOf(
        broken(sameOrNull(meet(a, b), meet(b, a)), "a ⊓ b ≠ b ⊓ a"),
        broken(sameOrNull(meet(a, a), a), "a ⊓ a ≠ a"),
      ),
    "join and meet absorb each other": (a, b) => {
      const common = meet(a, b);
      return allOf(
        broken(common === null || equal(join(a, common), a), "a ⊔ (a ⊓ b) ≠ a"),
        broken(sameOrNull(meet(a, join(a, b)), a), "a ⊓ (a ⊔ b) ≠ a"),
      );
    },
    "widening covers the join": (a, b) => {
      for (const round of [0, 2, 3, 5, 8, 23, 24, 100]) {
        const wide = widen(a, b, round, type);
        if (!leq(join(a, b), wide)) return `round ${round}: ${show(wide, type)}`;
      }
      return null;
    },
    "widening rests where nothing new comes": (a, b) => {
      const common = meet(a, b);
      const rests = (round: number) =>
        equal(widen(a, a, round, type), a) && (common === null || equal(widen(a, common, round, type), a));
      return broken([0, 3, 8, 24].every(rests), "it moved");
    },
  };
}

function told<T>(domain: Domain<T>, type: AnyIntegerType, ...values: T[]): string {
  return values.map((value) => domain.show(value, type)).join(" ; ");
}

/** Every law on every triple. */
export function checkEverywhere<T>(domain: Domain<T>, type: AnyIntegerType, all: readonly T[]): void {
  for (const [name, law] of Object.entries(latticeLaws(domain, type))) {
    test(`${name} (every ${typeText(type)})`, () => {
      const third = law.length > 2 ? all : all.slice(0, 1);
      for (const a of all) {
        for (const b of all) {
          for (const c of third) {
            const wrong = law(a, b, c);
            if (wrong !== null) expect.fail(`${wrong}: ${told(domain, type, a, b, c)}`);
          }
        }
      }
    });
  }
}

/** Every law on random triples, of which the second often is above or below the first. */
export function checkSampled<T>(domain: Domain<T>, type: AnyIntegerType, any: fc.Arbitrary<T>): void {
  const triple = fc.tuple(any, any, any, fc.constantFrom(0, 1, 2, 3)).map(([a, b, c, kind]): [T, T, T] => {
    if (kind === 1) return [a, domain.join(a, b), domain.join(domain.join(a, b), c)];
    if (kind === 2) return [a, domain.meet(a, b, type) ?? b, c];
    return kind === 3 ? [a, b, domain.meet(a, b, type) ?? c] : [a, b, c];
  });
  for (const [name, law] of Object.entries(latticeLaws(domain, type))) {
    test(`${name} (random ${typeText(type)})`, () => {
      fc.assert(
        fc.property(triple, ([a, b, c]) => {
          const wrong = law(a, b, c);
          if (wrong !== null) throw new Error(`${wrong}: ${told(domain, type, a, b, c)}`);
        }),
        { numRuns: RUNS },
      );
    });
  }
}

/** However a value goes on growing, widening changes it at most `limit` times. */
export function checkEnds<T>(domain: Domain<T>, type: AnyIntegerType, any: fc.Arbitrary<T>, limit: number): void {
  test(`widening ends within ${limit} changes (${typeText(type)})`, () => {
    fc.assert(
      fc.property(any, fc.array(any, { minLength: 40, maxLength: 60 }), (start, news) => {
        let value = start;
        let changes = 0;
        for (const [round, next] of news.entries()) {
          const wide = domain.widen(value, domain.join(value, next), round, type);
          if (!domain.equal(wide, value)) changes++;
          value = wide;
        }
        expect(changes).toBeLessThanOrEqual(limit);
      }),
      { numRuns: RUNS / 4 },
    );
  });
}

export function typeText(type: AnyIntegerType): string {
  return `${type.bits} bits ${type.signed ? "signed" : "unsigned"}`;
}

export const BOTH_SIGNS: readonly boolean[] = [false, true];
