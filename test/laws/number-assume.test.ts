/** Comparisons of abstract integers, what their outcome says about the operands, and conversions. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { AnyIntegerType } from "../../server/execute/domain/integer-type.js";
import * as number from "../../server/execute/domain/number.js";
import { anySample, holds } from "./any-number.js";
import { everyValue, wrapBig } from "./concrete.js";
import { BOTH_SIGNS, RUNS, typeText } from "./kit.js";

type Assume = (a: number.AbstractInteger, b: number.AbstractInteger, type: AnyIntegerType) => number.Assumed | null;

const ASSUMPTIONS: Readonly<Record<string, { assume: Assume; holdsFor: (a: bigint, b: bigint) => boolean }>> = {
  less: { assume: number.assumeLess, holdsFor: (a, b) => a < b },
  "less or equal": { assume: number.assumeLessEqual, holdsFor: (a, b) => a <= b },
  equal: { assume: number.assumeEqual, holdsFor: (a, b) => a === b },
  "not equal": { assume: number.assumeNotEqual, holdsFor: (a, b) => a !== b },
};

const COMPARISONS: Readonly<
  Record<
    string,
    {
      compare: (a: number.AbstractInteger, b: number.AbstractInteger) => boolean | null;
      as: (a: bigint, b: bigint) => boolean;
    }
  >
> = {
  less: { compare: number.less, as: (a, b) => a < b },
  "less or equal": { compare: number.lessEqual, as: (a, b) => a <= b },
  equal: { compare: number.equalTo, as: (a, b) => a === b },
};

describe.each(BOTH_SIGNS)("comparisons and assumptions, signed: %s", (signed) => {
  for (const [name, { assume, holdsFor }] of Object.entries(ASSUMPTIONS)) {
    test(`"${name}" assumed of small sets keeps exactly the pairs' ends that can hold (3 bits)`, () => {
      const type = { bits: 3, signed };
      const values = everyValue(type);
      const sets: number[][] = [];
      for (let chosen = 1; chosen < 256; chosen += 3) sets.push(values.filter((_, at) => (chosen >> at) & 1));
      for (const left of sets) {
        for (const right of sets) {
          const keptLeft = left.filter((x) => right.some((y) => holdsFor(BigInt(x), BigInt(y))));
          const keptRight = right.filter((y) => left.some((x) => holdsFor(BigInt(x), BigInt(y))));
          const assumed = assume(number.fromValues(left, type), number.fromValues(right, type), type);
          const told = `{${left}} ${name} {${right}}`;
          if (keptLeft.length === 0) {
            if (assumed !== null) expect.fail(told);
          } else if (
            assumed === null ||
            !number.equal(assumed.left, number.fromValues(keptLeft, type)) ||
            !number.equal(assumed.right, number.fromValues(keptRight, type))
          ) {
            expect.fail(`${told}: {${keptLeft}} and {${keptRight}}, not ${JSON.stringify(assumed)}`);
          }
        }
      }
    });

    for (const width of [7, 8, 16, 32, 64]) {
      const type = { bits: width, signed };
      test(`"${name}" assumed keeps every pair for which it holds, adds nothing and grows (${typeText(type)})`, () => {
        fc.assert(
          fc.property(anySample(type), anySample(type), anySample(type), (a, b, more) => {
            const assumed = assume(a.value, b.value, type);
            if (holdsFor(a.member, b.member)) {
              expect(assumed).not.toBeNull();
              expect(holds(assumed!.left, a.member, type) && holds(assumed!.right, b.member, type)).toBe(true);
            }
            if (assumed === null) return;
            expect(number.leq(assumed.left, a.value) && number.leq(assumed.right, b.value)).toBe(true);
            const grown = assume(number.join(a.value, more.value), b.value, type);
            expect(grown !== null && number.leq(assumed.left, grown.left)).toBe(true);
            expect(grown !== null && number.leq(assumed.right, grown.right)).toBe(true);
          }),
          { numRuns: RUNS },
        );
      });
    }
  }

  for (const [name, { compare, as }] of Object.entries(COMPARISONS)) {
    for (const width of [4, 8, 16, 32, 64]) {
      const type = { bits: width, signed };
      test(`"${name}" is only answered where every pair agrees (${typeText(type)})`, () => {
        fc.assert(
          fc.property(anySample(type), anySample(type), (a, b) => {
            const answer = compare(a.value, b.value);
            if (answer !== null) expect(answer).toBe(as(a.member, b.member));
            if (number.isSingle(a.value) && number.isSingle(b.value)) expect(answer).not.toBeNull();
          }),
          { numRuns: RUNS },
        );
      });
    }
  }

  for (const width of [4, 8, 16, 32, 64]) {
    const type = { bits: width, signed };
    test(`truth and its assumption (${typeText(type)})`, () => {
      fc.assert(
        fc.property(anySample(type), ({ value, member }) => {
          const answer = number.truth(value);
          if (answer !== null) expect(answer).toBe(member !== 0n);
          const told = number.toBoolean(value);
          expect(holds(told, member === 0n ? 0n : 1n, { bits: 8, signed: false })).toBe(true);
          const assumed = number.assumeTruth(value, member !== 0n, type);
          expect(assumed !== null && holds(assumed, member, type) && number.leq(assumed, value)).toBe(true);
          if (answer !== null) expect(number.assumeTruth(value, !answer, type)).toBeNull();
        }),
        { numRuns: RUNS },
      );
    });

    test(`a tested mask and its outcome (${typeText(type)})`, () => {
      const mask = fc.oneof(
        fc.nat(Math.min(width, 32) - 1).map((bit) => 2 ** bit),
        fc.nat(Math.min(2 ** width - 1, 0xffffffff)),
      );
      fc.assert(
        fc.property(anySample(type), mask, anySample(type), ({ value, member }, tested, more) => {
          const outcome = (BigInt.asUintN(64, member) & BigInt(tested)) !== 0n;
          const assumed = number.assumeBits(value, tested, outcome, type);
          expect(assumed !== null && holds(assumed, member, type) && number.leq(assumed, value)).toBe(true);
          const grown = number.assumeBits(number.join(value, more.value), tested, outcome, type);
          expect(grown !== null && number.leq(assumed!, grown)).toBe(true);
          if (!outcome) expect(assumed!.ones & tested).toBe(0);
        }),
        { numRuns: RUNS },
      );
    });
  }

  test("a mask tested on whole small types keeps what it must (6 bits)", () => {
    const type = { bits: 6, signed };
    for (let mask = 0; mask < 64; mask++) {
      for (const wanted of [false, true]) {
        const kept = everyValue(type).filter((value) => ((value & mask) !== 0) === wanted);
        const assumed = number.assumeBits(number.top(type), mask, wanted, type);
        if (kept.length === 0) expect(assumed).toBeNull();
        else for (const value of kept) expect(number.contains(assumed!, value)).toBe(true);
        if (!wanted) expect(assumed).toEqual(number.fromValues(kept, type));
      }
    }
  });
});

describe("conversions", () => {
  const types = [3, 4, 7, 8, 16, 32, 64].flatMap((bits) => BOTH_SIGNS.map((signed) => ({ bits, signed })));
  for (const from of types) {
    for (const to of types) {
      test(`${typeText(from)} to ${typeText(to)}: contains the concrete result, grows, is canonical`, () => {
        fc.assert(
          fc.property(anySample(from), anySample(from), (a, b) => {
            const result = number.convert(a.value, from, to);
            if (!holds(result, wrapBig(a.member, to), to)) throw new Error(`${a.member}: ${number.show(result, to)}`);
            expect(number.leq(result, number.convert(number.join(a.value, b.value), from, to))).toBe(true);
            expect(number.meet(result, number.top(to), to)).toEqual(result);
            if (result.values !== null) expect(number.fromValues(result.values, to)).toEqual(result);
          }),
          { numRuns: RUNS / 4 },
        );
      });
    }
  }

  test("there and back again through a wider type changes nothing", () => {
    for (const signed of BOTH_SIGNS) {
      const byte = { bits: 8, signed };
      const int = { bits: 16, signed: true };
      fc.assert(
        fc.property(anySample(byte), ({ value }) => {
          expect(number.convert(number.convert(value, byte, int), int, byte)).toEqual(value);
        }),
        { numRuns: RUNS },
      );
    }
  });

  test("a 64-bit integer is exact as far as a double is, and then a range to the type’s end", () => {
    const wide = { bits: 64, signed: true };
    const unsigned = { bits: 64, signed: false };
    const largest = Number.MAX_SAFE_INTEGER;
    expect(number.constant(largest, wide).values).toEqual([largest]);
    expect(number.constant(2 ** 60, wide)).toEqual({ min: largest, max: 2 ** 63, zeros: 0, ones: 0, values: null });
    expect(number.convert(number.constant(-1, wide), wide, unsigned)).toEqual({
      min: largest,
      max: 2 ** 64,
      zeros: 0,
      ones: 0xffffffff,
      values: null,
    });
    expect(
      number.convert(number.mul(number.constant(16000000, wide), number.constant(1000000, wide), wide), wide, wide)
        .values,
    ).toEqual([16e12]);
  });
});
