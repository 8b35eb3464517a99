/** The judge must be able to say no: hand-made observations against hand-made reports. */
import { describe, expect, it } from "vitest";
import { judge } from "./judge.js";
import type { Observation, SeenState } from "./measure.js";
import type { SeenSignal } from "./pin-tracks.js";
import type { ReportedSignal, ReportedSketch, ReportedValue } from "./report-shape.js";

const one = (value: number): ReportedValue => ({ values: [value] });

const pulse: ReportedSignal = {
  regime: "running",
  kind: "pulse",
  level: null,
  driver: "timer",
  frequencyHz: { min: 25000, max: 25000 },
  duty: { min: 0.5, max: 0.5 },
  periodTicks: { min: 640, max: 640 },
  highTicks: { min: 320, max: 320 },
  when: null,
};

function report(
  registers: Record<string, ReportedValue>,
  signals: readonly ReportedSignal[] = [pulse],
): ReportedSketch {
  return {
    path: "fan.ino",
    clockHz: 16_000_000,
    complete: true,
    gaps: [],
    timers: [{ timer: 2, states: [{ regime: "running", mode: "", when: null, registers }] }],
    pins: [{ pin: "3", port: "PD3", units: ["OC2B"], signals }],
  };
}

function seen(state: Partial<SeenState> = {}, signal: Partial<SeenSignal> = {}): Observation {
  return {
    states: [
      {
        timer: 2,
        phase: "running",
        registers: { TCCR2A: 0x21, OCR2B: 100 },
        where: "delay",
        cycle: 1,
        recurs: true,
        afterInterrupt: false,
        ...state,
      },
    ],
    signals: [
      {
        port: "PD3",
        phase: "running",
        kind: "pulse",
        level: null,
        connected: true,
        periodTicks: { min: 640, max: 640 },
        highTicks: { min: 320, max: 320 },
        clockDivisor: 1,
        cycle: 1,
        recurs: true,
        afterInterrupt: false,
        ...signal,
      },
    ],
    cycles: 10,
    turnsOfLoop: 9,
    ownMain: false,
    interrupts: [16],
    final: [],
  };
}

const right = { TCCR2A: one(0x21), OCR2B: one(100) };

describe("sound", () => {
  it("passes what lies inside, by values and by range and bits", () => {
    expect(judge("fan.ino", [seen()], report(right), true).exceptions).toEqual([]);
    const wide = { TCCR2A: one(0x21), OCR2B: { min: 96, max: 127, bits: "0b011_____" } };
    expect(judge("fan.ino", [seen()], report(wide), true).exceptions).toEqual([]);
  });

  it.each<[string, Record<string, ReportedValue>]>([
    ["another value", { TCCR2A: one(0x21), OCR2B: one(101) }],
    ["outside the range", { TCCR2A: one(0x21), OCR2B: { min: 101, max: 255, bits: "0b________" } }],
    ["another bit", { TCCR2A: one(0x21), OCR2B: { min: 0, max: 255, bits: "0b_______1" } }],
    ["a register left out", { TCCR2A: one(0x21) }],
  ])("fails a state: %s", (_name, registers) => {
    expect(judge("fan.ino", [seen()], report(registers), true).exceptions).toHaveLength(1);
  });

  it("fails a state of the wrong regime, and says that only the regime is wrong", () => {
    const verdict = judge("fan.ino", [seen({ phase: "setup" }, { phase: "setup" })], report(right), true);
    expect(verdict.exceptions).toHaveLength(2);
    const told = report(right);
    const swapped: ReportedSketch = {
      ...told,
      timers: [{ timer: 2, states: [{ ...told.timers[0]!.states[0]!, regime: "setup" }] }],
      pins: [{ ...told.pins[0]!, signals: [{ ...pulse, regime: "setup" }] }],
    };
    expect(judge("fan.ino", [seen()], swapped, true).regimeOnly).toBe(true);
    expect(judge("fan.ino", [seen({ recurs: false }, { recurs: false })], swapped, true).exceptions).toEqual([]);
  });

  it.each<[string, Partial<SeenSignal>]>([
    ["another period", { periodTicks: { min: 640, max: 656 } }],
    ["another width", { highTicks: { min: 300, max: 300 } }],
    ["a level", { kind: "level", level: "low", periodTicks: null, highTicks: null }],
    ["not driven", { kind: "not driven", connected: false, periodTicks: null, highTicks: null }],
    ["another clock", { clockDivisor: 2 }],
  ])("fails a signal: %s", (_name, signal) => {
    expect(judge("fan.ino", [seen({}, signal)], report(right), true).exceptions).toHaveLength(1);
  });

  it("a level of unknown sign contains both, unknown contains everything", () => {
    const level = { kind: "level", level: "high", periodTicks: null, highTicks: null } as const;
    const constant: ReportedSignal = { ...pulse, kind: "level", periodTicks: null, highTicks: null };
    expect(judge("fan.ino", [seen({}, level)], report(right, [constant]), true).exceptions).toEqual([]);
    expect(judge("fan.ino", [seen()], report(right, [{ ...pulse, kind: "unknown" }]), true).exceptions).toEqual([]);
  });

  const bySoftware: ReportedSignal = {
    ...pulse,
    driver: "software",
    frequencyHz: { min: 24000, max: 26000 },
    duty: { min: 0.45, max: 0.55 },
    periodTicks: { min: 615, max: 667 },
    highTicks: { min: 300, max: 340 },
  };
  const byPort = { connected: false, duty: { min: 0.49, max: 0.51 } } as const;

  it("passes pulses that the program makes, where they lie inside or nothing is claimed", () => {
    expect(judge("fan.ino", [seen({}, byPort)], report(right, [bySoftware]), true).exceptions).toEqual([]);
    const untimed = { ...bySoftware, frequencyHz: null, duty: null, periodTicks: null, highTicks: null };
    expect(judge("fan.ino", [seen({}, byPort)], report(right, [untimed]), true).exceptions).toEqual([]);
  });

  it.each<[string, Partial<SeenSignal>, ReportedSignal]>([
    ["shorter", { ...byPort, periodTicks: { min: 614, max: 640 } }, bySoftware],
    ["longer", { ...byPort, periodTicks: { min: 640, max: 668 } }, bySoftware],
    ["wider", { ...byPort, highTicks: { min: 320, max: 341 } }, bySoftware],
    ["of another duty", { ...byPort, duty: { min: 0.44, max: 0.5 } }, bySoftware],
    ["told of a timer", byPort, pulse],
    ["told as a level", byPort, { ...bySoftware, kind: "level", level: "high" }],
  ])("fails pulses that the program makes: %s", (_name, signal, told) => {
    expect(judge("fan.ino", [seen({}, signal)], report(right, [told]), true).exceptions).toHaveLength(1);
  });

  it("fails a sketch without a report", () => {
    expect(judge("fan.ino", [seen()], undefined, true).exceptions).toHaveLength(1);
  });
});

describe("exact", () => {
  it("is one value each", () => {
    expect(judge("fan.ino", [seen()], report(right), true).inexact).toEqual([]);
  });

  it("is not asked of a sketch that reads inputs", () => {
    expect(judge("fan.ino", [seen()], report(right), false).inexact).toBeNull();
  });

  it.each<[string, ReportedSketch]>([
    ["two values", report({ TCCR2A: one(0x21), OCR2B: { values: [100, 101] } })],
    ["a range", report({ TCCR2A: one(0x21), OCR2B: { min: 0, max: 255, bits: "0b________" } })],
    ["an unknown pin", report(right, [{ ...pulse, kind: "unknown" }])],
    ["a range of periods", report(right, [{ ...pulse, periodTicks: { min: 320, max: 640 } }])],
    ["a second signal", report(right, [pulse, { ...pulse, kind: "not driven" }])],
  ])("fails %s", (_name, told) => {
    expect(judge("fan.ino", [seen()], told, true).inexact).not.toEqual([]);
  });
});
