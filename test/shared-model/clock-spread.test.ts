import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evenSpread, showClockError, showSpread } from "../../shared-model/clock-spread.js";

describe("a clock's spread in words", () => {
  it.each([
    [0.000252, 0.00113, "+0.025..+0.113 %"],
    [-0.0064, 0.0032, "-0.64..+0.32 %"],
    [-0.0001, 0.0001, "-0.01..+0.01 %"],
    [0, 0.001, "0..+0.1 %"],
    [-0.000002, 0.0000015, "-0.0002..+0.00015 %"],
    [0.05, 0.1, "+5..+10 %"],
  ])("%d to %d", (min, max, words) => expect(showClockError({ min, max })).toBe(words));

  it("says who says so", () => {
    expect(showSpread(evenSpread(0.005))).toBe("±0.5 %");
    expect(showSpread({ min: 0.0003, max: 0.0011, readings: 3 })).toBe("+0.03..+0.11 % by 3 bench readings");
  });

  it("never shows less than is meant", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.1, max: 0.1, noNaN: true }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (min, width) => {
          const max = min + width;
          const ends = showClockError({ min, max }).replace(" %", "").split("..").map(Number);
          expect(ends[0]! / 100).toBeLessThanOrEqual(min + 1e-7);
          expect((ends[1] ?? ends[0])! / 100).toBeGreaterThanOrEqual(max - 1e-7);
        },
      ),
      { seed: 7, numRuns: 2000 },
    );
  });
});
