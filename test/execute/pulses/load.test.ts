/** What interrupt routines take from the program, beside a count by hand. */
import { describe, expect, it } from "vitest";
import { heldUp, lateness } from "../../../server/execute/pulses/load.js";

const every = (cycles: number, period: number) => ({ cycles, every: period });

describe("time that routines take", () => {
  it("is one call each, and one more for every period", () => {
    expect(heldUp([every(100, 16_384)], 1_000)).toBe(100);
    // 16384 cycles of computing, with two calls in them: 16584 hold two begins of a period at the most.
    expect(heldUp([every(100, 16_384)], 16_384)).toBe(200);
    expect(heldUp([every(100, 16_384), every(50, 400)], 350)).toBe(200);
  });

  it("has no end where they leave no time", () => {
    expect(heldUp([every(100, 100)], 10)).toBe(Number.POSITIVE_INFINITY);
    expect(heldUp([every(Number.POSITIVE_INFINITY, 16_384)], 10)).toBe(Number.POSITIVE_INFINITY);
    expect(heldUp([every(100, 16_384)], Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
  });

  it("makes a routine late, and so does what holds interrupts off", () => {
    expect(lateness([], 0)).toBe(70);
    expect(lateness([every(110, 16_384)], 0)).toBe(180);
    expect(lateness([every(110, 16_384)], 500)).toBe(620);
    expect(lateness([], Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
  });
});
