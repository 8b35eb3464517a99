import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { reportedRegister } from "../../server/report/report.js";
import type { RegisterValue } from "../../shared-model/register-value.js";

/** Every value that bounds and known bits allow. */
function allowed(value: RegisterValue, width: number): number[] {
  const found: number[] = [];
  for (let at = value.min; at <= value.max && at < 2 ** width; at++) {
    if ((at & value.ones) === value.ones && (at & value.zeros) === 0) found.push(at);
  }
  return found;
}

const registers = fc
  .record({
    width: fc.constantFrom(8, 16),
    a: fc.nat(0xffff),
    b: fc.nat(0xffff),
    bits: fc.nat(0xffff),
    known: fc.nat(0xffff),
  })
  .map(({ width, a, b, bits, known }) => {
    const mask = 2 ** width - 1;
    const low = Math.min(a & mask, b & mask);
    const high = Math.max(a & mask, b & mask);
    const value: RegisterValue = {
      min: low,
      max: high,
      ones: bits & known & mask,
      zeros: ~bits & known & mask,
      values: null,
    };
    return { width, value };
  })
  .filter(({ width, value }) => allowed(value, width).length > 0);

describe("a register in the report", () => {
  it("holds every possible value, and lists them where they are at most 16", () => {
    fc.assert(
      fc.property(registers, ({ width, value }) => {
        const possible = allowed(value, width);
        const reported = reportedRegister(value, width);
        if ("values" in reported) {
          expect(reported.values).toEqual(possible);
          expect(reported.values.length).toBeLessThanOrEqual(16);
        } else {
          expect(reported.bits).toHaveLength(width + 2);
          const outside = possible.filter((each) => {
            const bits = each.toString(2).padStart(width, "0");
            const fits = [...reported.bits.slice(2)].every((bit, at) => bit === "_" || bit === bits[at]);
            return each < reported.min || each > reported.max || !fits;
          });
          expect(outside).toEqual([]);
          expect(possible.length).toBeGreaterThan(16);
        }
      }),
      { numRuns: 300 },
    );
  });
  it("keeps a list that the engine kept", () => {
    expect(reportedRegister({ min: 3, max: 200, zeros: 0, ones: 0, values: [3, 200] }, 8)).toEqual({
      values: [3, 200],
    });
  });
  it("shows the contract's example", () => {
    expect(reportedRegister({ min: 0, max: 248, zeros: 1, ones: 0, values: null }, 8)).toEqual({
      min: 0,
      max: 248,
      bits: "0b_______0",
    });
  });
});
