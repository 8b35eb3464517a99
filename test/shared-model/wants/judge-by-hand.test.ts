/**
 * Verdicts worked out on paper before the judge was asked. Signals are plain numbers at 16 MHz; the arithmetic stands beside
 * each case. `tolerance` is ±0.5 % unless said otherwise.
 */
import { describe, expect, it } from "vitest";
import { fraction } from "../../../shared-model/fraction.js";
import type { JudgedSignal } from "../../../shared-model/wants/judge.js";
import { judgeWant } from "../../../shared-model/wants/judge.js";
import { readComment } from "../../../shared-model/wants/read-comment.js";

const BARE = { level: null, because: null, top: null, prescaler: null } as const;

/** A pulse of so many CPU ticks per period, high for `low` to `high` of these. */
function ticks(period: number, low: number, high: number, steps: number | null = 251): JudgedSignal {
  return {
    ...BARE,
    kind: "pulse",
    driver: "timer",
    frequencyHz: { min: fraction(16_000_000, period), max: fraction(16_000_000, period) },
    duty: { min: fraction(low, period), max: fraction(high, period) },
    highTicks: { min: low, max: high },
    periodTicks: { min: period, max: period },
    steps,
  };
}
const flat = (kind: "level" | "not driven" | "unknown", level: "low" | "high" | null = null): JudgedSignal => ({
  ...BARE,
  kind,
  level,
  driver: kind === "level" ? "timer" : null,
  frequencyHz: null,
  duty: null,
  highTicks: null,
  periodTicks: null,
  steps: null,
});
const low = flat("level", "low");
const high = flat("level", "high");
const either = flat("level");
const undriven = flat("not driven");
const unknown = flat("unknown");

function judged(text: string, signals: readonly JudgedSignal[], tolerance = 0.005, supplyVolts: number | null = 5) {
  const [found] = readComment(`// wants D3: ${text}`);
  if (found?.kind !== "want") throw new Error(JSON.stringify(found));
  return judgeWant(found, signals, tolerance, { supplyVolts });
}
const met = (text: string, ...signals: readonly JudgedSignal[]) => judged(text, signals).met;

describe("frequency", () => {
  // 16000 ticks: 1000 Hz; over ±0.5 %: 995 .. 1005 Hz.
  it.each([
    ["1 kHz", "yes"], // 990..1010
    ["1 kHz +-0.5 %", "yes"], // 995..1005: touches both ends
    ["1 kHz +-0.49 %", "marginal"], // 995.1..1004.9
    ["1 kHz +-0 %", "marginal"], // exact, nothing to spare
    ["995..1005 Hz", "yes"],
    ["995..1004 Hz", "marginal"],
    ["1000..1200 Hz", "marginal"], // at the lower end
    ["1001..1200 Hz", "no"],
    ["1001 Hz or more", "no"],
    ["995 Hz or more", "yes"],
    ["1000 Hz or more", "marginal"],
    ["every 1 ms", "yes"],
    ["every 1 ms +-0.5 %", "marginal"], // 1/1.005 ms = 995.02 Hz > 995
    ["every 1010..1100 us", "no"], // 909.1..990.1 Hz
  ])("1000 Hz against %s: %s", (text, expected) => {
    expect(met(text, ticks(16_000, 8000, 8000))).toBe(expected);
  });

  it("with a crystal what was marginal is met", () => {
    expect(judged("1 kHz +-0.49 %", [ticks(16_000, 8000, 8000)], 0.0001).met).toBe("yes");
  });

  it("counts the worst of all states; not the levels between", () => {
    expect(met("1 kHz", ticks(16_000, 8000, 8000), low, high)).toBe("yes");
    expect(met("1 kHz", ticks(16_000, 8000, 8000), ticks(15_900, 8000, 8000))).toBe("marginal"); // 1006.29 · 1.005 = 1011.3
    expect(met("1 kHz", ticks(16_000, 8000, 8000), ticks(15_800, 8000, 8000))).toBe("no"); // 1012.7
    expect(met("1 kHz", ticks(16_000, 8000, 8000), undriven)).toBe("no");
    expect(met("1 kHz", ticks(16_000, 8000, 8000), unknown)).toBe("unknown");
  });
});

describe("duty", () => {
  // 20 % of 16000 = 3200, 100 % is a level. The clock moves no duty.
  it.each([
    ["duty 20..80 %", 3200, 12_800, "yes"],
    ["duty 20..80 %", 3199, 12_800, "no"],
    ["duty 20..80 %", 3200, 12_801, "no"],
    ["duty 50 %", 8000, 8000, "yes"],
    ["duty 50 %", 8001, 8001, "no"],
    ["duty 50 % +-0.1 %", 8016, 8016, "yes"], // 50.1 %
    ["duty 50 % +-0.1 %", 8017, 8017, "no"],
  ])("%s with %i to %i ticks: %s", (text, from, to, expected) => {
    expect(met(text, ticks(16_000, from, to))).toBe(expected);
  });

  it("counts levels as 0 and 100 %", () => {
    const half = ticks(16_000, 8000, 8000);
    expect(met("duty 0..50 %", half, low)).toBe("yes");
    expect(met("duty 1..50 %", half, low)).toBe("no");
    expect(met("duty 50..100 %", half, high)).toBe("yes");
    expect(met("duty 50..99 %", half, high)).toBe("no");
    expect(met("duty 0..100 %", half, either)).toBe("yes");
    expect(met("duty 0..99 %", half, either)).toBe("unknown");
    expect(met("duty 1..99 %", half, either)).toBe("no");
  });
});

describe("reach", () => {
  // 251 steps: half a step is 0.2 % of the period, 32 ticks of 16000.
  it.each([
    [1600, 15_360, "yes"], // exactly 10 and 96 %
    [1632, 15_360, "yes"], // half a step above
    [1633, 15_360, "no"],
    [1600, 15_328, "yes"],
    [1600, 15_327, "no"],
    [0, 16_000, "yes"],
  ])("10..96 %% with %i to %i ticks: %s", (from, to, expected) => {
    expect(met("reach 10..96 %", ticks(16_000, from, to))).toBe(expected);
  });

  it("takes levels for ends", () => {
    expect(met("reach 0..100 %", ticks(16_000, 8000, 8000), low, high)).toBe("yes");
    expect(met("reach 0..100 %", ticks(16_000, 8000, 8000), low)).toBe("no");
  });

  it("is open where a level of unknown sign, or a signal that is not known, may be the end that is missing", () => {
    expect(met("reach 0..50 %", ticks(16_000, 8000, 8000), either)).toBe("unknown");
    expect(met("reach 0..50 %", ticks(16_000, 8000, 8000), unknown)).toBe("unknown");
    // 70 % is neither end of a constant level.
    expect(met("reach 30..70 %", ticks(16_000, 8000, 8000), either)).toBe("unknown");
  });
});

describe("pulse width", () => {
  // 0.5 µs per tick is 8 CPU ticks; 20 ms = 320000 ticks. 1500 µs = 24000 ticks.
  it.each([
    ["pulse 1000..2000 us", 16_000, 32_000, "marginal"], // exactly the ends: 995 .. 2010 µs over the clock
    ["pulse 1000..2000 us", 16_080, 31_840, "yes"], // 1005 / 1.005 = 1000; 1990 / 0.995 = 2000
    ["pulse 1000..2000 us", 16_079, 31_840, "marginal"],
    ["pulse 1000..2000 us", 15_999, 31_840, "no"],
    ["pulse 1000..2000 us", 16_080, 32_001, "no"],
    ["pulse 1500 us +-1 %", 24_000, 24_000, "yes"], // 1492.5 .. 1507.5 in 1485 .. 1515
    ["pulse 1500 us", 24_000, 24_000, "marginal"], // no tolerance given, none met
  ])("%s with %i to %i ticks: %s", (text, from, to, expected) => {
    expect(met(text, ticks(320_000, from, to))).toBe(expected);
  });

  it("a level is no pulse, unless the want says where the pin rests", () => {
    const servo = ticks(320_000, 20_000, 28_000);
    expect(met("pulse 1000..2000 us", servo, low)).toBe("no");
    expect(met("pulse 1000..2000 us, idle low", servo, low)).toBe("yes");
    expect(met("pulse 1000..2000 us, idle high", servo, low)).toBe("no");
  });
});

describe("steps", () => {
  it.each([
    [251, "251 steps", "yes"],
    [251, "252 steps", "no"],
    [null, "2 steps", "unknown"],
  ])("%s of them against %s: %s", (steps, text, expected) => {
    expect(met(text, ticks(16_000, 8000, 8000, steps))).toBe(expected);
  });
});

describe("idle level", () => {
  const half = ticks(16_000, 8000, 8000);
  it("must be what every constant state is", () => {
    expect(met("idle low", half, low)).toBe("yes");
    expect(met("idle low", half, high)).toBe("no");
    expect(met("idle high", half, high)).toBe("yes");
    expect(met("idle low", half, low, high)).toBe("no");
    expect(met("idle low", half, either)).toBe("unknown");
    expect(met("idle low", half)).toBe("yes");
    expect(met("idle low", half, undriven)).toBe("no");
  });

  it("alone asks for no pulse, with a frequency it does", () => {
    expect(met("idle low", low)).toBe("yes");
    expect(met("idle low", high)).toBe("no");
    expect(met("idle low", either)).toBe("unknown");
    expect(met("idle low", undriven)).toBe("no");
    expect(met("idle low")).toBe("no");
    expect(met("1 kHz, idle low", low)).toBe("no");
  });

  it("stands in place of the duty where the pin is constant", () => {
    expect(met("duty 20..80 %, idle low", half, low)).toBe("yes");
    expect(met("duty 20..80 %, idle low", half, high)).toBe("no");
    expect(met("duty 20..40 %, idle low", half, low)).toBe("no");
  });

  it("says that the pin floats before setup, whatever the verdict", () => {
    for (const signals of [[half, low], [half, high], [unknown]]) {
      expect(judged("idle low", signals).reasons.at(-1)).toBe(
        "from reset until setup drives it the pin floats: only a pull resistor holds it low",
      );
    }
    expect(judged("1 kHz", [half]).reasons.join()).not.toContain("floats");
  });
});

describe("a filter behind the pin", () => {
  // RC = 0.1 s. At 1 kHz ripple is 0.25 % = 12.5 mV of 5 V; half a step of 1000 is 1/1998: 0.1 s · ln 1998 = 760 ms.
  it("tells ripple and settling, to half a step", () => {
    const { met: verdict, reasons } = judged("analog-rc with R = 10 kOhm, C = 10 uF", [ticks(16_000, 0, 16_000, 1000)]);
    expect(verdict).toBe("marginal");
    expect(reasons.at(-1)).toBe(
      "behind 10 kOhm and 10 uF: ripple at most 0.25 % of the supply (12.5 mV peak to peak, at duty 50 %), settled to half a step of 1000 after 760 ms",
    );
  });

  // 62.5 kHz: T = 16 µs, RC = 1 ms: tanh(0.004) = 0.4 %; without steps to a percent: 1 ms · ln 100 = 4.605 ms. No supply known.
  it("to a percent where the steps are not known, in shares where the supply is not", () => {
    const { reasons } = judged(
      "analog-rc with R = 1 kOhm, C = 1 uF, 62.5 kHz, duty 0..100 %",
      [ticks(256, 0, 256, null)],
      0.005,
      null,
    );
    expect(reasons.at(-1)).toBe(
      "behind 1 kOhm and 1 uF: ripple at most 0.4 % of the supply (peak to peak, at duty 50 %), settled to 1 % after 4.61 ms",
    );
  });

  it("is silent where there is no pulse", () => {
    expect(judged("analog-rc with R = 1 kOhm, C = 1 uF", [low]).reasons).toHaveLength(1);
  });
});
