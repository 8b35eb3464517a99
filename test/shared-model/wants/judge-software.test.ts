/** Verdicts on pulses that software makes: known by bounds, or not at all. */
import { describe, expect, it } from "vitest";
import { fraction } from "../../../shared-model/fraction.js";
import type { Bounds, Waveform } from "../../../shared-model/signal.js";
import { judgeWant } from "../../../shared-model/wants/judge.js";
import { readComment } from "../../../shared-model/wants/read-comment.js";

const NOTHING = { steps: null, top: null, prescaler: null, because: null, level: null } as const;

/** Whole percents and hertz, at 16 MHz. */
function bySoftware(hz: Bounds<number>, duty: Bounds<number>): Waveform {
  const period = { min: 16_000_000 / hz.max, max: 16_000_000 / hz.min };
  return {
    ...NOTHING,
    kind: "pulse",
    driver: "software",
    frequencyHz: { min: fraction(hz.min), max: fraction(hz.max) },
    duty: { min: fraction(duty.min, 100), max: fraction(duty.max, 100) },
    periodTicks: period,
    highTicks: { min: (period.min * duty.min) / 100, max: (period.max * duty.max) / 100 },
  };
}

const untimed: Waveform = {
  ...NOTHING,
  kind: "pulse",
  driver: "software",
  frequencyHz: null,
  duty: null,
  highTicks: null,
  periodTicks: null,
  because: "the program switches it",
};
const levels: Waveform[] = (["low", "high"] as const).map((level) => ({
  ...untimed,
  kind: "level",
  driver: "port",
  level,
}));

function met(text: string, signals: readonly Waveform[], tolerance = 0.005): string {
  const [found] = readComment(`// wants D3: ${text}`);
  if (found?.kind !== "want") throw new Error(text);
  return judgeWant(found, signals, tolerance).met;
}

describe("bounds on what software makes", () => {
  const steady = bySoftware({ min: 495, max: 500 }, { min: 49, max: 51 });

  it("are met where all of them is wanted", () => {
    expect(met("500 Hz +-5 %", [steady])).toBe("yes");
    expect(met("500 Hz within 494..501 Hz", [steady])).toBe("marginal");
    expect(met("500 Hz within 494..501 Hz", [steady], 0)).toBe("yes");
    expect(met("duty 40..60 %", [steady])).toBe("yes");
    expect(met("pulse 900..1100 us", [steady])).toBe("yes");
  });

  it("leave it open where part of them is wanted", () => {
    expect(met("500 Hz within 497..503 Hz", [steady])).toBe("unknown");
    expect(met("duty 50..60 %", [steady])).toBe("unknown");
    expect(met("pulse 1000..1100 us", [steady])).toBe("unknown");
  });

  it("are not met where none of them is wanted", () => {
    expect(met("1 kHz", [steady])).toBe("no");
    expect(met("duty 60..70 %", [steady])).toBe("no");
    expect(met("pulse 100..200 us", [steady])).toBe("no");
  });

  it("do not say whether a duty gets to their ends", () => {
    expect(met("reach 49..51 %", [steady])).toBe("unknown");
  });

  it("go with the levels between which the pin is switched", () => {
    expect(met("duty 40..60 %", [steady, ...levels])).toBe("yes");
    expect(met("pulse 900..1100 us", [...levels, steady])).toBe("yes");
  });
});

describe("pulses at times that are not known", () => {
  it("leave every want open", () => {
    expect(met("500 Hz", [untimed, ...levels])).toBe("unknown");
    expect(met("duty 40..60 %", [untimed])).toBe("unknown");
    expect(met("pulse 900..1100 us every 20 ms", [untimed])).toBe("unknown");
  });

  it("do not hide that another pulse is wrong", () => {
    expect(met("1 kHz", [untimed, bySoftware({ min: 495, max: 500 }, { min: 49, max: 51 })])).toBe("no");
  });

  it("leave it open at which level the pin rests, and whether a duty is reached", () => {
    expect(met("idle low", [untimed, ...levels])).toBe("unknown");
    const timer = { ...bySoftware({ min: 500, max: 500 }, { min: 50, max: 50 }), driver: "timer" } as const;
    expect(met("reach 50..60 %", [untimed, timer])).toBe("unknown");
    expect(met("idle low", [untimed, timer, ...levels])).toBe("unknown");
    expect(met("idle low", [timer, levels[1]!])).toBe("no");
  });
});
