/** The operations of abstract integers, held against C's operators on single integers. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { AnyIntegerType } from "../../server/execute/domain/integer-type.js";
import * as number from "../../server/execute/domain/number.js";
import { anySample, holds } from "./any-number.js";
import { BINARY, COMMUTING, everyValue, UNARY } from "./concrete.js";
import { BOTH_SIGNS, RUNS, typeText } from "./kit.js";

type Binary = (a: number.AbstractInteger, b: number.AbstractInteger, type: AnyIntegerType) => number.AbstractInteger;

const OPERATIONS: Readonly<Record<string, Binary>> = {
  add: number.add,
  sub: number.sub,
  mul: number.mul,
  div: number.div,
  mod: number.mod,
  and: number.and,
  or: number.or,
  xor: number.xor,
  shl: number.shl,
  shr: number.shr,
};

/** Undefined behaviour is not followed, so a greater operand may have a smaller result where the smaller one had none. */
function isDefined(name: string, b: number.AbstractInteger, type: AnyIntegerType): boolean {
  if (name === "div" || name === "mod") return !number.holdsOnly(b, 0);
  return !(name === "shl" || name === "shr") || (b.min >= 0 && b.max < type.bits);
}

/** Shift counts mostly below the width, else nearly all would be undefined. */
function anyOperands(name: string, type: AnyIntegerType) {
  const any = anySample(type);
  if (name !== "shl" && name !== "shr") return fc.tuple(any, any);
  const count = fc.nat(type.bits - 1);
  const counts = fc.tuple(count, fc.nat(4), fc.boolean()).map(([at, more, few]) => {
    const most = Math.min(at + more, type.bits - 1);
    const value = few ? number.fromValues([at, most], type) : number.range(at, most, type);
    return { value, member: BigInt(most) };
  });
  return fc.tuple(any, fc.oneof({ weight: 5, arbitrary: counts }, any));
}

describe.each(BOTH_SIGNS)("operations on abstract integers, signed: %s", (signed) => {
  for (const [name, operation] of Object.entries(OPERATIONS)) {
    test(`${name} of small sets is exact (3 bits)`, () => {
      const type = { bits: 3, signed };
      const values = everyValue(type);
      const sets: number[][] = [];
      for (let chosen = 1; chosen < 256; chosen += 3) sets.push(values.filter((_, at) => (chosen >> at) & 1));
      for (const left of sets) {
        for (const right of sets) {
          const results = new Set<number>();
          let defined = true;
          for (const x of left) {
            for (const y of right) {
              const result = BINARY[name]!(BigInt(x), BigInt(y), type);
              if (result !== undefined) results.add(Number(result));
              else if (name === "shl" || name === "shr") defined = false;
            }
          }
          if (!defined || results.size === 0) continue;
          const got = operation(number.fromValues(left, type), number.fromValues(right, type), type);
          if (!number.equal(got, number.fromValues([...results], type))) {
            expect.fail(`{${left}} ${name} {${right}} = ${number.show(got, type)}, not {${[...results]}}`);
          }
        }
      }
    });

    for (const width of [7, 8, 16, 32, 64]) {
      const type = { bits: width, signed };
      test(`${name} contains the concrete result (${typeText(type)})`, () => {
        fc.assert(
          fc.property(anyOperands(name, type), ([a, b]) => {
            const expected = BINARY[name]!(a.member, b.member, type);
            const result = operation(a.value, b.value, type);
            if (expected !== undefined && !holds(result, expected, type)) {
              throw new Error(`${a.member} ${name} ${b.member} = ${expected}, not in ${number.show(result, type)}`);
            }
          }),
          { numRuns: RUNS * 4 },
        );
      });

      test(`${name} grows with its operands (${typeText(type)})`, () => {
        fc.assert(
          fc.property(anyOperands(name, type), anySample(type), fc.boolean(), ([a, b], more, first) => {
            fc.pre(isDefined(name, b.value, type));
            const small = operation(a.value, b.value, type);
            const great = first
              ? operation(number.join(a.value, more.value), b.value, type)
              : operation(a.value, number.join(b.value, more.value), type);
            const why = number.whyNotLeq(small, great);
            if (why !== null) throw new Error(`${number.show(small, type)} ⋢ ${number.show(great, type)}: ${why}`);
          }),
          { numRuns: RUNS * 2 },
        );
      });

      if (COMMUTING.includes(name)) {
        test(`${name} commutes (${typeText(type)})`, () => {
          fc.assert(
            fc.property(anySample(type), anySample(type), (a, b) => {
              expect(operation(a.value, b.value, type)).toEqual(operation(b.value, a.value, type));
            }),
            { numRuns: RUNS },
          );
        });
      }
    }
  }

  for (const [name, scalar] of Object.entries(UNARY)) {
    const operation = name === "neg" ? number.neg : number.not;
    for (const width of [3, 4, 8, 16, 32, 64]) {
      const type = { bits: width, signed };
      test(`${name} contains the concrete result and grows (${typeText(type)})`, () => {
        fc.assert(
          fc.property(anySample(type), anySample(type), (a, b) => {
            const result = operation(a.value, type);
            expect(holds(result, scalar(a.member, type), type)).toBe(true);
            expect(number.leq(result, operation(number.join(a.value, b.value), type))).toBe(true);
          }),
          { numRuns: RUNS },
        );
      });
    }
  }

  test("a divisor of 0 is left out; a divisor of 0 alone and a count past the width leave nothing known", () => {
    const int = { bits: 16, signed };
    const zero = number.constant(0, int);
    expect(number.div(number.constant(100, int), zero, int)).toEqual(number.top(int));
    expect(number.mod(number.constant(100, int), zero, int)).toEqual(number.top(int));
    expect(number.div(number.constant(100, int), number.fromValues([0, 5], int), int)).toEqual(
      number.constant(20, int),
    );
    expect(number.shl(number.constant(1, int), number.constant(16, int), int)).toEqual(number.top(int));
    expect(number.shl(zero, number.constant(16, int), int)).toEqual(zero);
  });
});

describe("as precise as a sketch needs", () => {
  const int = { bits: 16, signed: true } as const;
  const word = { bits: 16, signed: false } as const;
  const byte = { bits: 8, signed: false } as const;
  const analog = number.range(0, 1023, int);
  const at = (value: number) => number.constant(value, int);

  const cases: readonly [string, number.AbstractInteger, number.AnyIntegerType, string][] = [
    ["analogRead / 4", number.div(analog, at(4), int), int, "0..255"],
    ["analogRead >> 2", number.shr(analog, at(2), int), int, "0..255"],
    ["analogRead / 4 as a byte", number.convert(number.div(analog, at(4), int), int, byte), byte, "any uint8_t"],
    ["a register & 0xF8", number.and(number.top(byte), number.constant(0xf8, byte), byte), byte, "0..248 (0b_____000)"],
    [
      "(a register & 0xF8) | 3",
      number.or(number.fromBits(7, 0, byte), number.constant(3, byte), byte),
      byte,
      "3..251 (0b_____011)",
    ],
    ["1 << 0..7", number.shl(at(1), number.range(0, 7, int), int), int, "{1, 2, 4, 8, 16, 32, 64, 128}"],
    ["0..1023 % 10", number.mod(analog, at(10), int), int, "0..9"],
    [
      "0..100 * 255 / 100 in int",
      number.div(number.mul(number.range(0, 100, int), at(255), int), at(100), int),
      int,
      "0..255",
    ],
    ["0..1023 * 255 / 1023 wraps in int", number.div(number.mul(analog, at(255), int), at(1023), int), int, "-32..32"],
    ["255 - 0..255", number.sub(at(255), number.range(0, 255, int), int), int, "0..255"],
    ["0 - 1 in unsigned int", number.sub(number.constant(0, word), number.constant(1, word), word), word, "65535"],
    ["-1 as unsigned int", number.convert(at(-1), int, word), word, "65535"],
    [
      "-5..5 as a byte",
      number.convert(number.range(-5, 5, int), int, byte),
      byte,
      "{0, 1, 2, 3, 4, 5, 251, 252, 253, 254, 255}",
    ],
    ["300..400 as a byte", number.convert(number.range(300, 400, int), int, byte), byte, "44..144"],
  ];
  test.each(cases)("%s", (_, value, type, text) => {
    expect(number.show(value, type)).toBe(text);
  });
});

test("a product too great to be exact keeps the bits that a greater operand keeps", () => {
  const type = { bits: 64, signed: false } as const;
  const few = number.fromValues([0, 3], type);
  const great = number.constant(2 ** 53 - 1, type);
  const more = number.join(great, number.fromBits(72, 1_036_974_087, type));
  expect(number.whyNotLeq(number.mul(few, great, type), number.mul(few, more, type))).toBeNull();
});
