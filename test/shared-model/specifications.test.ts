/**
 * Each named specification's numbers against its source, typed in here by hand from the source and not from the table. Where
 * the source is "common practice", the numbers are those that the trade goes by and that the issue for them lists.
 */
import { describe, expect, it } from "vitest";
import { allowedModulation, fullModulationFrom } from "../../shared-model/flicker.js";
import { type Specification, specifications } from "../../shared-model/specifications.js";

/** [hz, min, max], duty, reach, pulse in µs, steps, words of the source. */
interface Row {
  readonly hz?: readonly [number, number, number];
  readonly duty?: readonly [number, number];
  readonly reach?: readonly [number, number];
  readonly pulse?: readonly [number, number];
  readonly steps?: number;
  readonly idle?: "low" | "high";
  readonly source: string;
  readonly caution?: string;
}

const published: Readonly<Record<string, Row>> = {
  // "Target frequency 25 kHz, acceptable operational range 21 kHz to 28 kHz."
  "fan-4wire": { hz: [25_000, 21_000, 28_000], source: "4-Wire Pulse Width Modulation" },
  // 50 Hz frames, 1 to 2 ms; a frame rate 10 % off is what such servos are known to take.
  "hobby-servo": { hz: [50, 45, 55], pulse: [1000, 2000], source: "common practice, no source" },
  // A third to a half of the period, a percent of it left for the timer's steps; receivers pass ±2 % around their centre.
  "ir-36khz": { hz: [36_000, 35_280, 36_720], duty: [0.3233, 0.51], idle: "low", source: "common practice, no source" },
  "ir-38khz": { hz: [38_000, 37_240, 38_760], duty: [0.3233, 0.51], idle: "low", source: "common practice, no source" },
  "ir-40khz": { hz: [40_000, 39_200, 40_800], duty: [0.3233, 0.51], idle: "low", source: "common practice, no source" },
  "ir-56khz": { hz: [56_000, 54_880, 57_120], duty: [0.3233, 0.51], idle: "low", source: "common practice, no source" },
  "led-no-flicker": { hz: [1250, 1250, Number.POSITIVE_INFINITY], source: "IEEE Std 1789-2015" },
  "motor-silent": { hz: [25_000, 20_000, 50_000], source: "common practice, no source", caution: "driver" },
  // 1 kHz ± 2 %; 10 to 96 % are the ends between which the duty says a current.
  "charging-pilot": {
    hz: [1000, 980, 1020],
    reach: [0.1, 0.96],
    source: "the trade's figures",
    caution: "no proof of safety",
  },
  "ultrasonic-40khz": { hz: [40_000, 39_000, 41_000], source: "common practice, no source" },
  "heater-slow": { hz: [1, 0.5, 2], source: "common practice, no source", caution: "licensed" },
  // 16 MHz / 256 = 62.5 kHz, ±1 %.
  "audio-carrier": { hz: [62_500, 61_875, 63_125], source: "common practice, no source" },
  // 0.5 % of full scale is a step of 1/200.
  "analog-rc": { hz: [1000, 1000, Number.POSITIVE_INFINITY], steps: 200, source: "common practice, no source" },
};

it("has every row that is promised, and no other", () => {
  expect(specifications.map((row) => row.id).sort()).toEqual(Object.keys(published).sort());
});

describe("numbers and source", () => {
  it.each(specifications.map((row): [string, Specification] => [row.id, row]))("%s", (id, row) => {
    const expected = published[id]!;
    const pair = (range: { min: number; max: number } | undefined, factor = 1) =>
      range && [Number((range.min * factor).toFixed(4)), Number((range.max * factor).toFixed(4))];
    expect(row.frequency && [row.frequency.hz, row.frequency.min, row.frequency.max]).toEqual(expected.hz);
    expect(pair(row.duty)).toEqual(expected.duty);
    expect(pair(row.reach)).toEqual(expected.reach);
    expect(pair(row.pulse, 1e6)).toEqual(expected.pulse);
    expect(row.steps).toBe(expected.steps);
    expect(row.idle).toBe(expected.idle);
    expect(row.source).toContain(expected.source);
    // A published standard is named, or it is said that there is none.
    expect(row.source).toMatch(/IEEE Std|specification, revision|common practice, no source|from memory/);
    if (expected.caution === undefined) expect(row.caution).toBeUndefined();
    else expect(row.caution).toContain(expected.caution);
  });
});

describe("the rule for light that flickers", () => {
  // Recommended practice 1: Mod% ≤ 0.025 f below 90 Hz, ≤ 0.08 f from there to 1250 Hz, free above.
  it.each([
    [10, 0.25],
    [50, 1.25],
    [89, 2.225],
    [90, 7.2],
    [120, 9.6],
    [490, 39.2],
    [1000, 80],
    [1250, 100],
    [1251, 100],
    [62_500, 100],
  ])("low risk at %f Hz: %f %%", (hz, percent) => {
    expect(allowedModulation(hz, "low risk")).toBeCloseTo(percent, 9);
  });

  // Recommended practice 2: Mod% ≤ 0.01 f below 90 Hz, ≤ 0.0333 f from there to 3 kHz, free above.
  it.each([
    [50, 0.5],
    [89, 0.89],
    [90, 2.997],
    [120, 3.996],
    [1000, 33.3],
    [3000, 99.9],
    [3001, 100],
  ])("no observable effect at %f Hz: %f %%", (hz, percent) => {
    expect(allowedModulation(hz, "no observable effect")).toBeCloseTo(percent, 9);
  });

  it("never allows more for no effect than for low risk, and never less at a higher frequency", () => {
    for (let hz = 1; hz < 5000; hz++) {
      expect(allowedModulation(hz, "no observable effect")).toBeLessThanOrEqual(allowedModulation(hz, "low risk"));
      for (const level of ["low risk", "no observable effect"] as const)
        expect(allowedModulation(hz + 1, level)).toBeGreaterThanOrEqual(allowedModulation(hz, level));
    }
  });

  it("gives the row its number: the least frequency at which 100 % is allowed", () => {
    let least = 0;
    while (allowedModulation(least, "low risk") < 100 - 1e-9) least += 1;
    expect(least).toBe(1250);
    expect(fullModulationFrom("low risk")).toBe(1250);
    expect(specifications.find((row) => row.id === "led-no-flicker")!.frequency!.min).toBe(least);
    expect(fullModulationFrom("no observable effect")).toBe(3000);
  });
});
