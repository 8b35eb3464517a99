import { describe, expect, it } from "vitest";
import { divisionOf } from "../../server/report/arithmetic.js";
import { aligned, wrapped } from "../../server/report/columns.js";
import type { ReportedSignal } from "../../shared-model/report.js";

const signal = (periodTicks: number, prescaler: number, top: number): ReportedSignal => ({
  regime: "running",
  kind: "pulse",
  level: null,
  driver: "timer",
  frequencyHz: null,
  duty: null,
  highTicks: null,
  periodTicks: { min: periodTicks, max: periodTicks },
  steps: null,
  top: { min: top, max: top },
  prescaler,
  when: null,
  from: [],
});

describe("the arithmetic behind a frequency", () => {
  // DS40002061, sections 15.7.3 and 15.7.4: f = clk / (N · 256), f = clk / (N · 510); 15.7.2: f = clk / (2 · N · (1 + OCR)).
  it.each([
    [64 * 256, 64, 255, "16 MHz / (64 · 256)"],
    [64 * 510, 64, 255, "16 MHz / (2 · 64 · 255)"],
    [2 * 8 * 250, 8, 249, "16 MHz / (2 · 8 · 250)"],
    [32 * 2 * 248, 32, 248, "16 MHz / (2 · 32 · 248)"],
  ])("%i ticks at prescaler %i, TOP %i: %s", (ticks, prescaler, top, words) => {
    expect(divisionOf(signal(ticks, prescaler, top), 16_000_000)).toBe(words);
  });
  it("is left out where the numbers stand in none of the data sheet's relations", () => {
    expect(divisionOf(signal(12_345, 8, 100), 16_000_000)).toBeNull();
    expect(divisionOf({ ...signal(16_384, 64, 255), top: { min: 1, max: 255 } }, 16_000_000)).toBeNull();
    expect(divisionOf({ ...signal(16_384, 64, 255), prescaler: null }, 16_000_000)).toBeNull();
  });
});

describe("columns", () => {
  it("are as wide as their widest cell, and nothing stands behind the last word", () => {
    expect(
      aligned([
        ["a", "long", ""],
        ["bbb", "", "end"],
      ]),
    ).toEqual(["a    long", "bbb        end"]);
  });
  it("long texts are broken between words", () => {
    expect(wrapped("one two three four", 12, "  ")).toEqual(["  one two", "  three four"]);
  });
});
