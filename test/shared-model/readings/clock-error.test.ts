import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fraction } from "../../../shared-model/fraction.js";
import { estimateClock, type Testimony } from "../../../shared-model/readings/clock-error.js";
import { matchOf } from "../../../shared-model/readings/compare.js";
import type { Waveform } from "../../../shared-model/signal.js";
import { readComment } from "../../../shared-model/wants/read-comment.js";

const CLOCK = 16_000_000;

/** A phase correct signal of half duty: what the instrument is put on. */
function signal(prescaler: number, top: number): Waveform {
  const hz = fraction(CLOCK, 2 * prescaler * top);
  const period = 2 * prescaler * top;
  const high = Math.floor(top / 2) * 2 * prescaler;
  return {
    kind: "pulse",
    level: null,
    driver: "timer",
    frequencyHz: { min: hz, max: hz },
    duty: { min: fraction(high, period), max: fraction(high, period) },
    highTicks: { min: high, max: high },
    periodTicks: { min: period, max: period },
    steps: top + 1,
    top: { min: top, max: top },
    prescaler,
    because: null,
  };
}

function reading(text: string) {
  const comment = readComment(`// bench reads D3: ${text}`)[0];
  if (comment?.kind !== "reading") throw new Error(`not a reading: ${text}`);
  return comment;
}

function testimony(text: string, prescaler: number, top: number): Testimony {
  const match = matchOf(reading(text), signal(prescaler, top));
  const clocks = match.kind === "gives" && match.clock !== null ? [match.clock] : [];
  return { clocks, setting: `${prescaler}:${top}` };
}

describe("the clock error of several readings", () => {
  it("is what most of them agree on, and the one that does not fit is named", () => {
    // Trade facts (common practice, no source): prescaler 32, phase correct.
    const found = estimateClock(
      [
        testimony("981 Hz", 32, 255),
        testimony("985 Hz", 32, 0xfe),
        testimony("1.04 kHz", 32, 0xf0),
        testimony("1.00 kHz", 32, 0xf8),
      ],
      0.005,
    );
    expect(found.standing).toEqual(["agrees", "agrees", "agrees", "misfit"]);
    expect(found.agreeing).toBe(3);
    expect(found.error!.min).toBeCloseTo(984.5 / (250_000 / 254) - 1, 7);
    expect(found.error!.max).toBeCloseTo(981.5 / (250_000 / 255) - 1, 7);
  });

  it("is not asked of one reading, which fits by the tolerance or not at all", () => {
    expect(estimateClock([testimony("981 Hz", 32, 255)], 0.005)).toEqual({
      error: null,
      standing: ["agrees"],
      agreeing: 1,
      tie: false,
    });
    expect(estimateClock([testimony("990 Hz", 32, 255)], 0.005).standing).toEqual(["misfit"]);
  });

  it("is out of tolerance only on the word of two settings", () => {
    const one = estimateClock([testimony("990 Hz", 32, 255), testimony("990.2 Hz +-0.5 Hz", 32, 255)], 0.005);
    expect(one).toMatchObject({ error: null, standing: ["misfit", "misfit"] });
    const two = estimateClock([testimony("990 Hz", 32, 255), testimony("494.9 Hz", 64, 255)], 0.005);
    expect(two.standing).toEqual(["agrees", "agrees"]);
    expect(two.error!.min).toBeGreaterThan(0.009);
    expect(two.error!.max).toBeLessThan(0.011);
  });

  it("cannot be told where two readings contradict each other", () => {
    const found = estimateClock([testimony("981 Hz", 32, 255), testimony("1.00 kHz", 32, 0xf8)], 0.005);
    expect(found).toEqual({ error: null, standing: ["open", "open"], agreeing: 0, tie: true });
  });

  it("is not outvoted by two readings of one setting, whose slip they share", () => {
    const found = estimateClock(
      [testimony("984.3 Hz", 32, 255), testimony("984.2 Hz", 32, 255), testimony("490.2 Hz", 64, 255)],
      0.005,
    );
    expect(found.tie).toBe(true);
    expect(found.error).toBeNull();
  });

  it("of a reading that nothing explains is nothing", () => {
    expect(estimateClock([{ clocks: [], setting: "a" }], 0.005).standing).toEqual(["misfit"]);
    expect(estimateClock([], 0.005)).toEqual({ error: null, standing: [], agreeing: 0, tie: false });
  });
});

/** What an instrument of that many digits shows. */
function shown(hz: number, digits: number): string {
  const whole = Math.floor(Math.log10(hz)) + 1;
  return hz >= 1e4
    ? `${(hz / 1000).toFixed(Math.max(0, digits - (whole - 3)))} kHz`
    : `${hz.toFixed(Math.max(0, digits - whole))} Hz`;
}

const setting = fc.record({
  prescaler: fc.constantFrom(1, 8, 32, 64, 128, 256, 1024),
  top: fc.integer({ min: 30, max: 255 }),
  digits: fc.integer({ min: 3, max: 7 }),
});

const PARAMETERS = { numRuns: 4000, seed: 20_511 };

describe("a board with a wrong clock", () => {
  it("has its error inside the estimate, always", () => {
    let estimated = 0;
    fc.assert(
      fc.property(
        fc.array(setting, { minLength: 1, maxLength: 6 }),
        fc.double({ min: -0.015, max: 0.015, noNaN: true }),
        (settings, error) => {
          const differing = new Set(settings.map(({ prescaler, top }) => prescaler * top)).size;
          if (Math.abs(error) > 0.005 && differing < 2) return;
          const found = estimateClock(
            settings.map(({ prescaler, top, digits }) =>
              testimony(shown((CLOCK * (1 + error)) / (2 * prescaler * top), digits), prescaler, top),
            ),
            0.005,
          );
          expect(found.standing.every((each) => each === "agrees")).toBe(true);
          if (settings.length === 1) return;
          estimated++;
          expect(found.error!.min).toBeLessThanOrEqual(error + 1e-9);
          expect(found.error!.max).toBeGreaterThanOrEqual(error - 1e-9);
        },
      ),
      PARAMETERS,
    );
    expect(estimated).toBeGreaterThan(2000);
  });

  it("and one reading taken of another setting: that one is named, or none", () => {
    const counted = { named: 0, open: 0, unnoticed: 0 };
    fc.assert(
      fc.property(
        fc.array(setting, { minLength: 2, maxLength: 6 }),
        fc.nat(),
        fc.constantFrom<(of: { prescaler: number; top: number }) => { prescaler: number; top: number }>(
          ({ prescaler, top }) => ({ prescaler, top: top + 1 }),
          ({ prescaler, top }) => ({ prescaler, top: top ^ 2 }),
          ({ prescaler, top }) => ({ prescaler, top: top ^ 8 }),
          ({ prescaler, top }) => ({ prescaler: prescaler * 4, top }),
          ({ prescaler, top }) => ({ prescaler: prescaler * 2, top }),
        ),
        fc.double({ min: -0.015, max: 0.015, noNaN: true }),
        (settings, pick, slip, error) => {
          const wrong = pick % settings.length;
          const right = settings.filter((_, index) => index !== wrong);
          const differing = new Set(right.map(({ prescaler, top }) => `${prescaler}:${top}`)).size;
          if (Math.abs(error) > 0.005 && differing < 2) return;
          const found = estimateClock(
            settings.map(({ prescaler, top, digits }, index) => {
              const real = index === wrong ? slip({ prescaler, top }) : { prescaler, top };
              return testimony(shown((CLOCK * (1 + error)) / (2 * real.prescaler * real.top), digits), prescaler, top);
            }),
            0.005,
          );
          const named = found.standing.flatMap((each, index) => (each === "misfit" ? [index] : []));
          expect(named.filter((index) => index !== wrong)).toEqual([]);
          if (found.error !== null && named.length > 0) {
            expect(found.error.min).toBeLessThanOrEqual(error + 1e-9);
            expect(found.error.max).toBeGreaterThanOrEqual(error - 1e-9);
          }
          counted[named.length > 0 ? "named" : found.tie ? "open" : "unnoticed"]++;
        },
      ),
      PARAMETERS,
    );
    // Most slips are found; those that hide behind few digits or stand one against one are not.
    expect(counted.named).toBeGreaterThan(2 * (counted.open + counted.unnoticed));
  });
});
