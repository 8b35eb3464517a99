/** The laws of abstract binary32 numbers, held against rounded binary64 and against what avr-libc was measured to do. */

import { readFileSync } from "node:fs";
import { join as joinPath } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Domain } from "../../server/execute/domain/domain.js";
import { FEW } from "../../server/execute/domain/few.js";
import * as float from "../../server/execute/domain/float.js";
import { nextDown, nextUp } from "../../server/execute/domain/float-range.js";
import { type AnyIntegerType, highest, lowest } from "../../server/execute/domain/integer-type.js";
import * as number from "../../server/execute/domain/number.js";
import { anySample, holds } from "./any-number.js";
import { BOTH_SIGNS, checkEnds, checkSampled, RUNS, typeText } from "./kit.js";

interface Sample {
  readonly value: float.AbstractFloat;
  readonly member: number;
}

const EDGES = [0, 1, 0.1, 2.5, 100, 255, 1023, 65535, 3e9, 2 ** -149, 3.4028234663852886e38, Number.POSITIVE_INFINITY];

const anyMember: fc.Arbitrary<number> = fc.oneof(
  fc.tuple(fc.constantFrom(...EDGES), fc.constantFrom(1, -1)).map(([edge, sign]) => Math.fround(edge * sign)),
  fc.integer({ min: -300, max: 300 }),
  fc.float({ min: -2000, max: 2000, noNaN: true }),
  fc.float(),
);

function ordered(a: number, b: number): [number, number] {
  return a <= b ? [a, b] : [b, a];
}

const anySampled: fc.Arbitrary<Sample> = anyMember.chain((member) => {
  const single = fc.constant(float.constant(member));
  const set = fc.array(anyMember, { maxLength: FEW + 2 }).map((others) => float.fromValues([member, ...others]));
  if (Number.isNaN(member)) {
    return fc.oneof(single, set, fc.constant(float.top)).map((value) => ({ value, member }));
  }
  const bounds = fc.tuple(anyMember, anyMember, fc.boolean()).map(([a, b, nan]) => {
    const [low, high] = ordered(Number.isNaN(a) ? member : a, Number.isNaN(b) ? member : b);
    return float.range(Math.min(low, member), Math.max(high, member), nan);
  });
  const close = fc.nat(60).map((steps) => {
    let high = member;
    for (let step = 0; step < steps; step++) high = nextUp(high);
    return float.range(member, high);
  });
  return fc.oneof(single, set, bounds, bounds, close).map((value) => ({ value, member }));
});

/** Written out anew, so as not to trust the domain's own `contains`. */
function has(a: float.AbstractFloat, value: number): boolean {
  if (Number.isNaN(value)) return a.nan;
  return a.values === null ? value >= a.min && value <= a.max : a.values.some((each) => each === value);
}

const domain: Domain<float.AbstractFloat> = { ...float, top: () => float.top };

describe("abstract floats as a lattice", () => {
  const type = { bits: 32, signed: true };
  const any = anySampled.map((sample) => sample.value);
  // JSON writes the infinities and NaN alike, but no two canonical values differ in them alone: NaN stands in `nan`.
  checkSampled(
    { ...domain, meet: (a, b) => float.meet(a, b) },
    type,
    any.filter((a) => Number.isFinite(a.min) && Number.isFinite(a.max)),
  );
  checkEnds(domain, type, any, 25);

  test("samples hold their member, before and after join, meet and widening", () => {
    fc.assert(
      fc.property(anySampled, anySampled, fc.nat(30), (a, b, round) => {
        expect(has(a.value, a.member)).toBe(true);
        const both = float.join(a.value, b.value);
        const wide = float.widen(a.value, b.value, round);
        expect(has(both, a.member) && has(both, b.member)).toBe(true);
        expect(has(wide, a.member) && has(wide, b.member)).toBe(true);
        expect(float.leq(both, wide) && float.leq(a.value, both)).toBe(true);
        if (!has(b.value, a.member)) return;
        const common = float.meet(a.value, b.value);
        expect(common !== null && has(common, a.member)).toBe(true);
      }),
      { numRuns: RUNS * 4 },
    );
  });

  test("neighbours are neighbours", () => {
    expect([nextUp(0), nextDown(0), nextUp(1), nextDown(-1)]).toEqual([
      2 ** -149,
      -(2 ** -149),
      1 + 2 ** -23,
      -1 - 2 ** -23,
    ]);
    expect(nextUp(3.4028234663852886e38)).toBe(Number.POSITIVE_INFINITY);
    expect(nextDown(Number.POSITIVE_INFINITY)).toBe(3.4028234663852886e38);
  });
});

type Binary = (a: float.AbstractFloat, b: float.AbstractFloat) => float.AbstractFloat;
type Unary = (a: float.AbstractFloat) => float.AbstractFloat;

const named = (name: string) => (a: float.AbstractFloat) => float.callFunction(name, [a])!;
const namedPair = (name: string) => (a: float.AbstractFloat, b: float.AbstractFloat) =>
  float.callFunction(name, [a, b])!;

const BINARY: Readonly<Record<string, { operation: Binary; scalar: (a: number, b: number) => number }>> = {
  add: { operation: float.add, scalar: (a, b) => a + b },
  sub: { operation: float.sub, scalar: (a, b) => a - b },
  mul: { operation: float.mul, scalar: (a, b) => a * b },
  div: { operation: float.div, scalar: (a, b) => a / b },
  fmod: { operation: namedPair("fmod"), scalar: (a, b) => a % b },
  hypot: { operation: namedPair("hypot"), scalar: Math.hypot },
  atan2: { operation: namedPair("atan2"), scalar: Math.atan2 },
  pow: { operation: namedPair("pow"), scalar: (a, b) => a ** b },
};

const UNARY: Readonly<Record<string, { operation: Unary; scalar: (a: number) => number }>> = {
  neg: { operation: float.neg, scalar: (a) => -a },
  sqrt: { operation: float.sqrt, scalar: Math.sqrt },
  fabs: { operation: named("fabs"), scalar: Math.abs },
  floor: { operation: named("floorf"), scalar: Math.floor },
  ceil: { operation: named("ceil"), scalar: Math.ceil },
  trunc: { operation: named("trunc"), scalar: Math.trunc },
  square: { operation: named("square"), scalar: (a) => a * a },
  sin: { operation: named("sin"), scalar: Math.sin },
  cos: { operation: named("cosf"), scalar: Math.cos },
  tan: { operation: named("tan"), scalar: Math.tan },
  exp: { operation: named("exp"), scalar: Math.exp },
  log: { operation: named("log"), scalar: Math.log },
  acos: { operation: named("acos"), scalar: Math.acos },
  atan: { operation: named("atan"), scalar: Math.atan },
  cosh: { operation: named("cosh"), scalar: Math.cosh },
};

describe("arithmetic of abstract floats", () => {
  for (const [name, { operation, scalar }] of Object.entries(BINARY)) {
    test(`${name} contains the concrete result`, () => {
      fc.assert(
        fc.property(anySampled, anySampled, (a, b) => {
          const result = operation(a.value, b.value);
          const expected = Math.fround(scalar(a.member, b.member));
          if (!has(result, expected))
            throw new Error(`${name}(${a.member}, ${b.member}) = ${expected}, not in ${float.show(result)}`);
        }),
        { numRuns: RUNS * 4 },
      );
    });

    test(`${name} grows with its operands`, () => {
      fc.assert(
        fc.property(anySampled, anySampled, anySampled, (a, b, more) => {
          const small = operation(a.value, b.value);
          for (const great of [
            operation(float.join(a.value, more.value), b.value),
            operation(a.value, float.join(b.value, more.value)),
          ]) {
            expect(float.whyNotLeq(small, great)).toBeNull();
          }
        }),
        { numRuns: RUNS * 4 },
      );
    });
  }

  for (const [name, { operation, scalar }] of Object.entries(UNARY)) {
    test(`${name} contains the concrete result and grows`, () => {
      fc.assert(
        fc.property(anySampled, anySampled, (a, more) => {
          const result = operation(a.value);
          const expected = Math.fround(scalar(a.member));
          if (!has(result, expected))
            throw new Error(`${name}(${a.member}) = ${expected}, not in ${float.show(result)}`);
          expect(float.whyNotLeq(result, operation(float.join(a.value, more.value)))).toBeNull();
        }),
        { numRuns: RUNS * 4 },
      );
    });
  }

  test("pow contains the concrete result for positive bases", () => {
    const positive = fc.float({ min: Math.fround(0.01), max: 300, noNaN: true });
    fc.assert(
      fc.property(positive, positive, fc.float({ min: -8, max: 8, noNaN: true }), (base, other, exponent) => {
        const result = float.callFunction("pow", [float.range(...ordered(base, other)), float.constant(exponent)])!;
        expect(has(result, Math.fround(base ** exponent))).toBe(true);
      }),
      { numRuns: RUNS },
    );
  });

  test("sums and products commute; an unknown function is not guessed at", () => {
    fc.assert(
      fc.property(anySampled, anySampled, (a, b) => {
        expect(float.add(a.value, b.value)).toEqual(float.add(b.value, a.value));
        expect(float.mul(a.value, b.value)).toEqual(float.mul(b.value, a.value));
      }),
      { numRuns: RUNS },
    );
    expect(float.callFunction("gamma", [float.top])).toBeNull();
    expect(float.callFunction("toString", [float.top])).toBeNull();
  });
});

/** Ends and neighbours of ends: what random numbers seldom meet in pairs. */
const GRID = [
  Number.NEGATIVE_INFINITY,
  -1,
  0,
  nextUp(0),
  0.5,
  nextDown(nextDown(2)),
  nextDown(2),
  2,
  Number.POSITIVE_INFINITY,
];
const GRID_RANGES = GRID.flatMap((min) => GRID.filter((max) => max >= min).map((max) => float.range(min, max)));

describe("abstract floats with ends on a grid", () => {
  for (const name of ["add", "sub", "mul", "div", "fmod", "pow", "hypot"]) {
    test(`${name} contains every result of the grid's numbers`, () => {
      const { operation, scalar } = BINARY[name]!;
      for (const a of GRID_RANGES) {
        for (const b of GRID_RANGES) {
          const result = operation(a, b);
          for (const x of GRID.filter((value) => has(a, value))) {
            for (const y of GRID.filter((value) => has(b, value))) {
              const expected = Math.fround(scalar(x, y));
              if (!has(result, expected))
                expect.fail(`${name}(${x}, ${y}) = ${expected}, not in ${float.show(result)}`);
            }
          }
        }
      }
    });
  }

  test("less, less or equal and equal, assumed, keep every number of the grid for which they hold", () => {
    const kinds = [
      { assume: float.assumeLess, as: (x: number, y: number) => x < y },
      { assume: float.assumeLessEqual, as: (x: number, y: number) => x <= y },
      { assume: float.assumeEqual, as: (x: number, y: number) => x === y },
    ];
    for (const { assume, as } of kinds) {
      for (const a of GRID_RANGES) {
        for (const b of GRID_RANGES) {
          const assumed = assume(a, b);
          const told = `${float.show(a)} with ${float.show(b)}: ${JSON.stringify(assumed)}`;
          for (const x of GRID.filter((value) => has(a, value))) {
            for (const y of GRID.filter((value) => has(b, value) && as(x, value))) {
              if (assumed === null || !has(assumed.left, x) || !has(assumed.right, y)) expect.fail(told);
            }
          }
        }
      }
    }
  });
});

describe("comparisons of abstract floats", () => {
  const compared = [
    {
      name: "less",
      compare: float.less,
      assume: float.assumeLess,
      deny: float.assumeNotLess,
      as: (a: number, b: number) => a < b,
    },
    {
      name: "less or equal",
      compare: float.lessEqual,
      assume: float.assumeLessEqual,
      deny: float.assumeNotLessEqual,
      as: (a: number, b: number) => a <= b,
    },
    {
      name: "equal",
      compare: float.equalTo,
      assume: float.assumeEqual,
      deny: float.assumeNotEqual,
      as: (a: number, b: number) => a === b,
    },
  ];
  test.each(compared)(
    '"$name" and its opposite keep every pair for which they hold',
    ({ compare, assume, deny, as }) => {
      fc.assert(
        fc.property(anySampled, anySampled, (a, b) => {
          const outcome = as(a.member, b.member);
          const answer = compare(a.value, b.value);
          if (answer !== null) expect(answer).toBe(outcome);
          const assumed = (outcome ? assume : deny)(a.value, b.value);
          expect(assumed).not.toBeNull();
          expect(has(assumed!.left, a.member) && has(assumed!.right, b.member)).toBe(true);
          expect(float.leq(assumed!.left, a.value) && float.leq(assumed!.right, b.value)).toBe(true);
        }),
        { numRuns: RUNS * 4 },
      );
    },
  );

  test("truth and its assumption", () => {
    fc.assert(
      fc.property(anySampled, ({ value, member }) => {
        const outcome = member !== 0;
        const answer = float.truth(value);
        if (answer !== null) expect(answer).toBe(outcome);
        const assumed = float.assumeTruth(value, outcome);
        expect(assumed !== null && has(assumed, member)).toBe(true);
      }),
      { numRuns: RUNS },
    );
  });
});

describe("conversions of abstract floats", () => {
  const types: AnyIntegerType[] = [8, 16, 32, 64].flatMap((bits) => BOTH_SIGNS.map((signed) => ({ bits, signed })));
  for (const type of types) {
    test(`to ${typeText(type)}: towards zero where it fits, anything where not`, () => {
      fc.assert(
        fc.property(anySampled, ({ value, member }) => {
          const result = float.toInteger(value, type);
          const whole = Math.trunc(member);
          const fits = whole >= lowest(type) && (type.bits === 64 ? whole < highest(type) : whole <= highest(type));
          if (fits) expect(holds(result, BigInt(whole), type)).toBe(true);
          else expect(result).toEqual(number.top(type));
        }),
        { numRuns: RUNS * 2 },
      );
    });

    test(`from ${typeText(type)}: the nearest float`, () => {
      fc.assert(
        fc.property(anySample(type), ({ value, member }) => {
          // A big integer becomes a double first; up to 2^53 that is exact.
          fc.pre(member >= -(2n ** 53n) && member <= 2n ** 53n);
          expect(has(float.fromInteger(value), Math.fround(Number(member)))).toBe(true);
        }),
        { numRuns: RUNS },
      );
    });
  }
});

interface Measured {
  readonly columns: readonly string[];
  readonly rows: readonly string[];
}

describe("avr-libc as measured", () => {
  const measured: Measured = JSON.parse(readFileSync(joinPath(__dirname, "avr-libc-floats.json"), "utf8"));
  const rows = measured.rows.map((row) => row.split(" ").map(toFloat));

  function toFloat(word: string): number {
    const view = new DataView(new ArrayBuffer(4));
    view.setUint32(0, Number.parseInt(word, 16));
    return view.getFloat32(0);
  }

  for (const [at, name] of measured.columns.entries()) {
    if (at < 2) continue;
    const two = ["add", "sub", "mul", "div", "fmod", "atan2", "pow", "hypot"].includes(name);
    const operation = BINARY[name]?.operation ?? namedPair(name);
    const apply = (a: float.AbstractFloat, b: float.AbstractFloat) => (two ? operation(a, b) : named(name)(a));

    test(`${name} of numbers and of ranges around them contains what the library answers`, () => {
      for (const row of rows) {
        const [a, b, result] = [row[0]!, row[1]!, row[at]!];
        const told = `${name}(${a}, ${b}) = ${result}`;
        const exact = apply(float.constant(a), float.constant(b));
        if (!has(exact, result)) expect.fail(`${told}, not in ${float.show(exact)}`);
        const rough = apply(around(a), around(b));
        if (!has(rough, result)) expect.fail(`${told}, not in ${float.show(rough)}`);
      }
    });
  }

  test("what the library computes exactly is one number here", () => {
    for (const name of ["add", "sub", "mul", "sqrt", "floor", "ceil", "trunc", "round", "fabs", "square"]) {
      const at = measured.columns.indexOf(name);
      for (const row of rows) {
        const [a, b, result] = [float.constant(row[0]!), float.constant(row[1]!), row[at]!];
        const answer = BINARY[name]?.operation(a, b) ?? named(name)(a);
        expect([answer, name, row[0], row[1]]).toEqual([float.constant(result), name, row[0], row[1]]);
      }
    }
  });

  function around(value: number): float.AbstractFloat {
    if (!Number.isFinite(value)) return float.join(float.constant(value), float.range(-1, 1));
    return float.range(...ordered(Math.fround(value * 0.875), Math.fround(value * 1.25)));
  }
});
