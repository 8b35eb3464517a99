/** The ripple formula against a numeric integration of the circuit, and figures that are easy by hand. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { rippleShare, settlingSeconds, worstRippleShare } from "../../shared-model/rc-filter.js";

/** Integrates dv/dt = (u − v) / RC in small steps over many periods; swing of the last one. */
function integrated(rc: number, period: number, duty: number): number {
  const steps = 4000;
  const periods = Math.ceil((12 * rc) / period) + 2;
  let v = duty;
  let [low, high] = [v, v];
  for (let n = 0; n < periods; n++) {
    [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const [input, share] of [
      [1, duty],
      [0, 1 - duty],
    ] as const) {
      const dt = (share * period) / steps;
      for (let step = 0; step < steps; step++) {
        // Midpoint rule.
        const half = v + ((input - v) / rc) * (dt / 2);
        v += ((input - half) / rc) * dt;
        low = Math.min(low, v);
        high = Math.max(high, v);
      }
    }
  }
  return high - low;
}

it.each([
  // [R, C, frequency, duty]
  [10_000, 10e-6, 1000, 0.5],
  [10_000, 1e-6, 490, 0.3],
  [4700, 100e-9, 1000, 0.9],
  [1000, 1e-6, 1000, 0.5],
  [1000, 100e-9, 100, 0.1],
])("%f Ohm, %f F at %f Hz, duty %f", (ohms, farads, hz, duty) => {
  const exact = rippleShare({ ohms, farads }, 1 / hz, duty);
  expect(exact / integrated(ohms * farads, 1 / hz, duty)).toBeCloseTo(1, 3);
});

it("by hand", () => {
  // 10 kOhm and 10 uF: RC = 0.1 s; at 1 kHz T/RC = 0.01, tanh(0.01/4) = 0.0024999948: 12.5 mV of 5 V.
  expect(worstRippleShare({ ohms: 10_000, farads: 10e-6 }, 1e-3)).toBeCloseTo(0.0024999948, 9);
  // T = RC: (1 − e^−½)² / (1 − e^−1) = 0.244918662.
  expect(worstRippleShare({ ohms: 1000, farads: 1e-6 }, 1e-3)).toBeCloseTo(0.244918662, 8);
  // Half a step of 200 is 1/398: ln 398 = 5.98645; a percent: ln 100 = 4.60517.
  expect(settlingSeconds({ ohms: 10_000, farads: 10e-6 }, 1 / 398)).toBeCloseTo(0.598645, 5);
  expect(settlingSeconds({ ohms: 10_000, farads: 10e-6 }, 0.01)).toBeCloseTo(0.460517, 5);
});

it("is worst at half, and between nothing and the whole supply", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-6, max: 10, noNaN: true }),
      fc.double({ min: 1e-9, max: 10, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (rc, period, duty) => {
        const filter = { ohms: rc, farads: 1 };
        const share = rippleShare(filter, period, duty);
        expect(share).toBeGreaterThanOrEqual(0);
        expect(share).toBeLessThanOrEqual(worstRippleShare(filter, period) * (1 + 1e-12));
        expect(worstRippleShare(filter, period)).toBeLessThanOrEqual(1);
      },
    ),
  );
});
