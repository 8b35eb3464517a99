import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readClock, writeClock } from "../../shared-model/clock-text.js";

describe("a clock as people write it", () => {
  it.each([
    ["16000000", 16_000_000],
    ["8e6", 8_000_000],
    ["8MHz", 8_000_000],
    [" 8 mhz ", 8_000_000],
    ["32.768kHz", 32_768],
    ["1", 1],
  ])("%s is %i Hz", (text, hz) => expect(readClock(text)).toBe(hz));
  it.each(["", "-1", "0", "16 M", "1e99", "0x10", "NaN", "fast"])("%j is none", (text) =>
    expect(readClock(text)).toBeNull(),
  );
  it("comes back as it was written down", () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 100_000_000 }), (hz) => readClock(writeClock(hz)) === hz));
  });
});
