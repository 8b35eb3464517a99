/**
 * Dependence on one reading: whatever is worked out of it is worth, entry by entry, what the same operations make of that
 * reading alone; and where several values may be meant, none of them is depended on.
 */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dependent, eitherOf, reading } from "../../server/execute/domain/dependence.js";
import * as float from "../../server/execute/domain/float.js";
import * as number from "../../server/execute/domain/number.js";

const INT: number.IntegerType = { bits: 16, signed: true };
const TYPES: readonly number.IntegerType[] = [
  { bits: 8, signed: false },
  { bits: 8, signed: true },
  INT,
  { bits: 16, signed: false },
  { bits: 32, signed: true },
  { bits: 32, signed: false },
];
const BINARY = ["add", "sub", "mul", "div", "mod", "and", "or", "xor", "shl", "shr"] as const;
const UNARY = ["neg", "not", "toBoolean"] as const;
const { add, sub, mul, div, mod, and, or, xor, shl, shr, neg, not } = number;
const WITH_TWO = { add, sub, mul, div, mod, and, or, xor, shl, shr };
const LOW = -3;
const SIZE = 24;

/** One operation on what came out of the one before; `self`: both sides are that value. */
interface Step {
  readonly type: number.IntegerType;
  readonly operation: (typeof BINARY)[number] | (typeof UNARY)[number] | "float";
  readonly constant: number;
  readonly self: boolean;
  readonly swapped: boolean;
}

const steps = fc.array(
  fc.record<Step>({
    type: fc.constantFrom(...TYPES),
    operation: fc.constantFrom(...BINARY, ...UNARY, "float" as const),
    constant: fc.oneof(fc.integer({ min: -5, max: 17 }), fc.constantFrom(64, 127, 255, 1023, 32767)),
    self: fc.boolean(),
    swapped: fc.boolean(),
  }),
  { minLength: 1, maxLength: 6 },
);

function follow(start: number.AbstractInteger, chain: readonly Step[]): number.AbstractInteger {
  let value = start;
  let type = INT;
  for (const step of chain) {
    value = number.convert(value, type, step.type);
    type = step.type;
    const other = step.self ? value : number.constant(step.constant, type);
    const [left, right] = step.swapped ? [other, value] : [value, other];
    if (step.operation === "float") {
      const scaled = float.mul(float.fromInteger(value), float.constant(step.constant * 0.0249));
      value = float.toInteger(float.add(scaled, float.constant(0.5)), type);
    } else if (step.operation === "toBoolean") {
      value = number.toBoolean(value);
      type = TYPES[0]!;
    } else if (step.operation === "neg") value = neg(value, type);
    else if (step.operation === "not") value = not(value, type);
    else value = WITH_TWO[step.operation](left, right, type);
  }
  return value;
}

function fresh(): number.AbstractInteger {
  return dependent(number.range(LOW, LOW + SIZE - 1, INT), reading(LOW, SIZE, { left: 1_000_000 }));
}

describe("dependence on one reading", () => {
  it("each entry is what the operations make of that reading alone", () => {
    let followed = 0;
    fc.assert(
      fc.property(steps, (chain) => {
        const table = follow(fresh(), chain).by?.table() ?? null;
        if (table === null) return;
        followed++;
        for (let at = 0; at < SIZE; at++) {
          const alone = follow(number.constant(LOW + at, INT), chain);
          expect(number.contains(alone, table[at]!), `reading ${LOW + at}`).toBe(true);
          if (number.isSingle(alone)) expect(table[at]).toBe(alone.min);
        }
      }),
      { seed: 4, numRuns: 3_000 },
    );
    expect(followed).toBeGreaterThan(500);
  });

  it("lies within the bounds, bits and sets of the value", () => {
    fc.assert(
      fc.property(steps, (chain) => {
        const value = follow(fresh(), chain);
        for (const entry of value.by?.table() ?? []) expect(number.contains(value, entry)).toBe(true);
      }),
      { seed: 5, numRuns: 1_000 },
    );
  });

  it("a join, a widening and two readings have none", () => {
    const [a, b] = [fresh(), fresh()];
    expect(number.join(a, a).by).toBe(a.by);
    expect(number.join(a, b).by).toBeUndefined();
    expect(number.join(a, number.constant(2, INT)).by).toBeUndefined();
    expect(number.widen(a, number.constant(2, INT), 1, INT).by).toBeUndefined();
    expect(number.add(a, b, INT).by).toBeUndefined();
    expect(number.sub(a, a, INT).by?.table()).toEqual(new Float64Array(SIZE));
  });

  it("a join of two paths told apart by the reading has one", () => {
    const a = fresh();
    const chosen = Uint8Array.from({ length: SIZE }, (_, at) => (at < 10 ? 1 : 0));
    const doubled = number.add(a, a, INT);
    const joined = eitherOf(
      number.join(doubled, number.constant(5, INT)),
      a.by!.source,
      chosen,
      doubled,
      number.constant(5, INT),
    );
    const expected = Float64Array.from({ length: SIZE }, (_, at) => (at < 10 ? 2 * (LOW + at) : 5));
    expect(joined.by?.table()).toEqual(expected);
  });

  it("a spent budget leaves bounds and bits", () => {
    const a = dependent(number.range(0, 15, INT), reading(0, 16, { left: 10 }));
    expect(number.add(a, number.constant(1, INT), INT).by?.table()).toBeNull();
  });
});
