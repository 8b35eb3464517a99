/** The laws of known bits. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as bits from "../../server/execute/domain/bits.js";
import type { Domain } from "../../server/execute/domain/domain.js";
import { type AnyIntegerType, maskOf } from "../../server/execute/domain/integer-type.js";
import { BINARY, everyValue, wrapBig } from "./concrete.js";
import { BOTH_SIGNS, checkEnds, checkEverywhere, checkSampled, typeText } from "./kit.js";

const domain: Domain<bits.KnownBits> = bits;

function everyKnownBits(type: AnyIntegerType): bits.KnownBits[] {
  const mask = maskOf(type);
  const all: bits.KnownBits[] = [];
  for (let zeros = 0; zeros <= mask; zeros++) {
    for (let ones = 0; ones <= mask; ones++) if ((zeros & ones) === 0) all.push({ zeros, ones });
  }
  return all;
}

function anyKnownBits(type: AnyIntegerType): fc.Arbitrary<bits.KnownBits> {
  const mask = fc.nat(0xffffffff).map((word) => (word & maskOf(type)) >>> 0);
  return fc.tuple(mask, mask, mask).map(([value, known, more]) => ({
    zeros: (~value & (known | more)) >>> 0,
    ones: (value & (known | more)) >>> 0,
  }));
}

function membersOf(a: bits.KnownBits, type: AnyIntegerType): number[] {
  return everyValue(type).filter((value) => bits.contains(a, value));
}

const OPERATIONS: Readonly<
  Record<string, (a: bits.KnownBits, b: bits.KnownBits, type: AnyIntegerType) => bits.KnownBits>
> = {
  add: bits.add,
  sub: bits.sub,
  mul: bits.mul,
  and: bits.and,
  or: bits.or,
  xor: bits.xor,
};

/** Where the result has every bit that all concrete results share. A product's is known but in its lowest bits. */
const TIGHT: readonly string[] = ["add", "sub", "and", "or", "xor"];

describe.each(BOTH_SIGNS)("known bits, signed: %s", (signed) => {
  for (const width of [3, 4]) checkEverywhere(domain, { bits: width, signed }, everyKnownBits({ bits: width, signed }));
  for (const width of [8, 16, 32]) {
    checkSampled(domain, { bits: width, signed }, anyKnownBits({ bits: width, signed }));
    checkEnds(domain, { bits: width, signed }, anyKnownBits({ bits: width, signed }), width);
  }

  const type = { bits: 4, signed };
  const all = everyKnownBits(type);
  for (const [name, operation] of Object.entries(OPERATIONS)) {
    test(`${name} of every pair contains the concrete results, and knows all it can where tight (${typeText(type)})`, () => {
      const results = new Map<number, number>();
      for (const x of everyValue(type)) {
        for (const y of everyValue(type)) results.set(x * 64 + y, Number(BINARY[name]!(BigInt(x), BigInt(y), type)));
      }
      for (const a of all) {
        for (const b of all) {
          const result = operation(a, b, type);
          let zeros = maskOf(type);
          let ones = maskOf(type);
          for (const x of membersOf(a, type)) {
            for (const y of membersOf(b, type)) {
              zeros &= ~results.get(x * 64 + y)!;
              ones &= results.get(x * 64 + y)!;
            }
          }
          const said = `${bits.show(a, type)} ${name} ${bits.show(b, type)} = ${bits.show(result, type)}`;
          if ((result.zeros & ~zeros) !== 0 || (result.ones & ~ones) !== 0) expect.fail(said);
          if (TIGHT.includes(name) && (result.zeros !== zeros || result.ones !== ones))
            expect.fail(`${said} is not tight`);
        }
      }
    });
  }

  test(`complement and shifts of everything are exact (${typeText(type)})`, () => {
    for (const a of all) {
      const members = membersOf(a, type);
      const shared = (operation: (value: bigint) => bigint) =>
        members.map((value) => bits.ofValue(Number(wrapBig(operation(BigInt(value)), type)), type)).reduce(bits.join);
      expect(bits.cut(bits.not(a), type)).toEqual(shared((value) => ~value));
      for (let count = 0; count < 4; count++) {
        expect(bits.shl(a, count, type)).toEqual(shared((value) => value << BigInt(count)));
        expect(bits.shr(a, count, type)).toEqual(shared((value) => value >> BigInt(count)));
      }
    }
  });

  test("extension to a wider type is exact", () => {
    const wide = { bits: 7, signed };
    for (const a of all) {
      const shared = membersOf(a, type)
        .map((value) => bits.ofValue(value, wide))
        .reduce(bits.join);
      expect(bits.extend(a, type, wide)).toEqual(shared);
    }
  });
});
