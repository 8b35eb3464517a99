/** The laws of intervals. */

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { boundsOf } from "../../server/execute/domain/bitwise-bounds.js";
import type { Domain } from "../../server/execute/domain/domain.js";
import { type AnyIntegerType, highest, lowest, wrap } from "../../server/execute/domain/integer-type.js";
import * as interval from "../../server/execute/domain/interval.js";
import { BINARY, everyValue } from "./concrete.js";
import { BOTH_SIGNS, checkEnds, checkEverywhere, checkSampled, typeText } from "./kit.js";

const domain: Domain<interval.Interval> = interval;

function everyInterval(type: AnyIntegerType): interval.Interval[] {
  const values = everyValue(type);
  return values.flatMap((min) => values.filter((max) => max >= min).map((max) => ({ min, max })));
}

function anyInterval(type: AnyIntegerType): fc.Arbitrary<interval.Interval> {
  const edge = fc.constantFrom(lowest(type), highest(type), 0, 1, 0x7f, 0xff, 0x7fff).map((value) => wrap(value, type));
  const value = fc.oneof(edge, fc.integer({ min: lowest(type), max: highest(type) }));
  return fc.tuple(value, value).map(([a, b]) => ({ min: Math.min(a, b), max: Math.max(a, b) }));
}

type Operation = (a: interval.Interval, b: interval.Interval, type: AnyIntegerType) => interval.Interval | null;

const OPERATIONS: Readonly<Record<string, Operation>> = {
  add: interval.add,
  sub: interval.sub,
  mul: interval.mul,
  div: interval.div,
  mod: interval.mod,
  and: (a, b, type) => boundsOf("and", a, b, type),
  or: (a, b, type) => boundsOf("or", a, b, type),
  xor: (a, b, type) => boundsOf("xor", a, b, type),
};

/** Exactly the hull of the concrete results. The others give it up where some results wrap, or for the remainder's sake. */
const TIGHT: readonly string[] = ["and", "or", "xor"];

describe.each(BOTH_SIGNS)("intervals, signed: %s", (signed) => {
  checkEverywhere(domain, { bits: 3, signed }, everyInterval({ bits: 3, signed }));
  for (const width of [8, 16, 32]) {
    checkSampled(domain, { bits: width, signed }, anyInterval({ bits: width, signed }));
    checkEnds(domain, { bits: width, signed }, anyInterval({ bits: width, signed }), interval.LAST_ROUND + 1);
  }

  const type = { bits: 4, signed };
  const all = everyInterval(type);
  for (const [name, operation] of Object.entries(OPERATIONS)) {
    test(`${name} of every pair contains the concrete results (${typeText(type)})`, () => {
      const results = new Map<number, number>();
      for (const x of everyValue(type)) {
        for (const y of everyValue(type)) {
          const result = BINARY[name]!(BigInt(x), BigInt(y), type);
          if (result !== undefined) results.set(x * 64 + y, Number(result));
        }
      }
      for (const a of all) {
        for (const b of all) {
          const result = operation(a, b, type);
          let min = Number.POSITIVE_INFINITY;
          let max = Number.NEGATIVE_INFINITY;
          for (let x = a.min; x <= a.max; x++) {
            for (let y = b.min; y <= b.max; y++) {
              const value = results.get(x * 64 + y);
              if (value === undefined) continue;
              min = Math.min(min, value);
              max = Math.max(max, value);
            }
          }
          const said = `${interval.show(a, type)} ${name} ${interval.show(b, type)}: ${min}..${max}`;
          if (result === null) {
            if (min <= max) expect.fail(`${said}, but none is said to be`);
            continue;
          }
          if (min < result.min || max > result.max) expect.fail(`${said}, not ${interval.show(result, type)}`);
          if (TIGHT.includes(name) && (min !== result.min || max !== result.max)) {
            expect.fail(`${said}, not tight: ${interval.show(result, type)}`);
          }
        }
      }
    });

    test(`${name} grows with its operands (${typeText({ bits: 3, signed })})`, () => {
      const small = { bits: 3, signed };
      const values = everyInterval(small);
      for (const a of values) {
        for (const b of values) {
          const result = operation(a, b, small);
          if (result === null) continue;
          for (const wider of neighbours(a, small)) {
            const grown = operation(wider, b, small);
            if (grown === null || !interval.leq(result, grown))
              expect.fail(`${JSON.stringify({ a, wider, b, result, grown })}`);
          }
          for (const wider of neighbours(b, small)) {
            const grown = operation(a, wider, small);
            if (grown === null || !interval.leq(result, grown))
              expect.fail(`${JSON.stringify({ a, b, wider, result, grown })}`);
          }
        }
      }
    });
  }

  const int = { bits: 16, signed };
  const constants = Array.from({ length: 200 }, (_, at) => at * 37);
  const named = {
    ...domain,
    widen: (before: interval.Interval, after: interval.Interval, round: number, of: AnyIntegerType) =>
      interval.widen(before, after, round, of, constants),
  };
  const counted = fc.nat(7000).map((max) => ({ min: 0, max }));
  checkEnds(named, int, counted, interval.LAST_ROUND + 1);

  test("even a bound that climbs past many constants is given up in the end", () => {
    let value: interval.Interval = { min: 0, max: 0 };
    for (let round = 0; round <= interval.LAST_ROUND; round++) {
      value = interval.widen(value, { min: 0, max: value.max + 1 }, round, int, constants);
    }
    expect(value).toEqual(interval.top(int));
  });

  test("a bound climbs to the constants it is compared with, and to their neighbours", () => {
    const byte = { bits: 8, signed: false };
    expect(interval.widen({ min: 0, max: 3 }, { min: 0, max: 4 }, 5, byte)).toEqual({ min: 0, max: 127 });
    expect(interval.widen({ min: 0, max: 3 }, { min: 0, max: 4 }, 5, byte, [249])).toEqual({ min: 0, max: 248 });
    expect(interval.widen({ min: 0, max: 248 }, { min: 0, max: 249 }, 7, byte, [249])).toEqual({ min: 0, max: 249 });
    // Less than one step past the constant; then no constant is left.
    expect(interval.widen({ min: 0, max: 250 }, { min: 0, max: 252 }, 8, byte, [249])).toEqual({ min: 0, max: 252 });
    expect(interval.widen({ min: 0, max: 252 }, { min: 0, max: 254 }, 9, byte, [249])).toEqual({ min: 0, max: 255 });
  });
});

/** One step wider on either side. */
function neighbours(a: interval.Interval, type: AnyIntegerType): interval.Interval[] {
  const wider: interval.Interval[] = [];
  if (a.min > lowest(type)) wider.push({ min: a.min - 1, max: a.max });
  if (a.max < highest(type)) wider.push({ min: a.min, max: a.max + 1 });
  return wider;
}
