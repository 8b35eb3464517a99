/** The laws of the product of bits, bounds and small sets. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Domain } from "../../server/execute/domain/domain.js";
import { FEW } from "../../server/execute/domain/few.js";
import { type AnyIntegerType, highest, lowest, maskOf } from "../../server/execute/domain/integer-type.js";
import { LAST_ROUND } from "../../server/execute/domain/interval.js";
import * as number from "../../server/execute/domain/number.js";
import { settled } from "../../server/execute/domain/product.js";
import { anyNumber, anySample, holds } from "./any-number.js";
import { everyValue } from "./concrete.js";
import { BOTH_SIGNS, checkEnds, checkEverywhere, checkSampled, RUNS, typeText } from "./kit.js";

const domain: Domain<number.AbstractInteger> = {
  ...number,
  equal: number.equal,
  widen: (before, after, round, type) => number.widen(before, after, round, type, [249]),
};

/** Every non-empty set of a 3-bit type; each is few. */
function everySet(type: AnyIntegerType, step: number): number.AbstractInteger[] {
  const values = everyValue(type);
  const sets: number.AbstractInteger[] = [];
  for (let chosen = 1; chosen < 2 ** values.length; chosen += step) {
    sets.push(
      number.fromValues(
        values.filter((_, at) => (chosen >> at) & 1),
        type,
      ),
    );
  }
  return sets;
}

/** Every set of a type that is given by bounds and bits, found by looking at each value. */
function everyBoundedSet(
  type: AnyIntegerType,
): Map<string, { settled: number.AbstractInteger | null; values: number[] }> {
  const values = everyValue(type);
  const mask = maskOf(type);
  const sets = new Map<string, { settled: number.AbstractInteger | null; values: number[] }>();
  for (let zeros = 0; zeros <= mask; zeros++) {
    for (let ones = 0; ones <= mask; ones++) {
      if ((zeros & ones) !== 0) continue;
      const withBits = values.filter((value) => (value & zeros) === 0 && (~value & ones) === 0);
      for (let min = lowest(type); min <= highest(type); min += 3) {
        for (let max = min; max <= highest(type); max += 2) {
          sets.set(`${min}..${max} ${zeros} ${ones}`, {
            settled: settled(min, max, zeros, ones, type),
            values: withBits.filter((value) => value >= min && value <= max),
          });
        }
      }
    }
  }
  return sets;
}

describe.each(BOTH_SIGNS)("abstract integers as a lattice, signed: %s", (signed) => {
  checkEverywhere(domain, { bits: 3, signed }, everySet({ bits: 3, signed }, 4));
  for (const width of [4, 7, 8, 16, 32, 64]) {
    checkSampled(domain, { bits: width, signed }, anyNumber({ bits: width, signed }));
    checkEnds(domain, { bits: width, signed }, anyNumber({ bits: width, signed }), LAST_ROUND + 1);
  }

  test("bounds and bits settle to exactly their common values, the tightest bounds and all known bits (6 bits)", () => {
    const type = { bits: 6, signed };
    for (const [told, set] of everyBoundedSet(type)) {
      if (set.values.length === 0) {
        if (set.settled !== null) expect.fail(`${told} is empty`);
        continue;
      }
      const made = set.settled!;
      const tight = number.fromValues(set.values, type);
      if (!number.equal(made, tight))
        expect.fail(`${told}: ${number.show(made, type)}, not ${number.show(tight, type)}`);
      if ((made.values === null) !== set.values.length > FEW) expect.fail(`${told}: listed or not`);
      if (number.size(made) < set.values.length) expect.fail(`${told}: size ${number.size(made)}`);
    }
  });

  for (const width of [8, 16, 32, 64]) {
    const type = { bits: width, signed };
    test(`samples hold their member, before and after join, meet and widening (${typeText(type)})`, () => {
      fc.assert(
        fc.property(anySample(type), anySample(type), fc.nat(30), (a, b, round) => {
          expect(holds(a.value, a.member, type)).toBe(true);
          expect(holds(number.join(a.value, b.value), a.member, type)).toBe(true);
          expect(holds(number.join(a.value, b.value), b.member, type)).toBe(true);
          const wide = number.widen(a.value, b.value, round, type);
          expect(holds(wide, a.member, type) && holds(wide, b.member, type)).toBe(true);
          const common = number.meet(a.value, b.value, type);
          if (holds(b.value, a.member, type)) expect(common !== null && holds(common, a.member, type)).toBe(true);
          if (common !== null) expect(number.equal(number.narrow(a.value, b.value, type)!, common)).toBe(true);
        }),
        { numRuns: RUNS },
      );
    });
  }

  test("the canonical form keeps its promises", () => {
    for (const width of [8, 16, 32]) {
      const type = { bits: width, signed };
      fc.assert(
        fc.property(anyNumber(type), (a) => {
          expect((a.zeros & a.ones) | (a.zeros & ~maskOf(type)) | (a.ones & ~maskOf(type))).toBe(0);
          expect(a.min >= lowest(type) && a.max <= highest(type) && a.min <= a.max).toBe(true);
          expect(number.contains(a, a.min) && number.contains(a, a.max)).toBe(true);
          expect(Object.is(a.min, -0) || Object.is(a.max, -0)).toBe(false);
          if (a.values !== null) expect(number.equal(number.fromValues(a.values, type), a)).toBe(true);
          else expect(number.equal(settled(a.min, a.max, a.zeros, a.ones, type)!, a)).toBe(true);
          if (number.isSingle(a)) expect([a.values, (a.zeros | a.ones) >>> 0]).toEqual([[a.min], maskOf(type)]);
        }),
        { numRuns: RUNS },
      );
    }
  });
});

describe("what is said of abstract integers", () => {
  const int = { bits: 16, signed: true };
  const byte = { bits: 8, signed: false };
  const seen: readonly [number.AbstractInteger, number.IntegerType | number.AnyIntegerType, string][] = [
    [number.constant(-7, int), int, "-7"],
    [number.fromValues([4, 1, 2], byte), byte, "{1, 2, 4}"],
    [number.range(0, 248, byte), byte, "0..248"],
    [number.range(3, 20, byte), byte, "3..20"],
    [number.fromBits(3, 0, byte), byte, "0..252 (0b______00)"],
    [number.top(byte), byte, "any uint8_t"],
    [number.top(int), int, "any int16_t"],
  ];
  test.each(seen)("%o", (value, type, text) => {
    expect(number.show(value, type)).toBe(text);
  });

  test("why one is not within another", () => {
    expect(number.whyNotLeq(number.range(0, 255, int), number.range(0, 248, int))).toBe("255 is above 248");
    expect(number.whyNotLeq(number.range(0, 100, int), number.fromBits(1, 0, int))).toBe("bit 0 may be 1");
    expect(number.whyNotLeq(number.fromValues([1, 3], int), number.fromValues([1, 2, 3, 4], int))).toBeNull();
    expect(number.whyNotLeq(number.fromValues([1, 3, 4], int), number.fromValues([1, 2, 4], int))).toBe(
      "3 is not among the values",
    );
  });
});
