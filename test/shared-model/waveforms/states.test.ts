/** Timer states around the formulas: power, held and foreign clocks, directions, partly known registers, the modulator. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exactly, type RegisterValue } from "../../../shared-model/register-value.js";
import type { Waveform } from "../../../shared-model/signal.js";
import type { ChannelAlternative, TimerSnapshot } from "../../../shared-model/timer-snapshot.js";
import { arithmetic, showClock } from "../../../shared-model/waveforms/arithmetic.js";
import { channelWaveforms } from "../../../shared-model/waveforms/channel-waveforms.js";
import { controlStates, modeName, modeNames } from "../../../shared-model/waveforms/control-states.js";
import { eventRates } from "../../../shared-model/waveforms/event-rates.js";
import { pinWaveforms } from "../../../shared-model/waveforms/pin-waveforms.js";
import { countOutput } from "./counting.js";
import { chipAndTimer, type Setting, snapshotOf } from "./snapshots.js";

const clockHz = 16_000_000;
const uno2 = chipAndTimer("atmega328p", 2);
const lamp: Setting = { mode: 3, clock: 4, com: { A: 2, B: 2 }, values: { A: 100, B: 100 } };

function oc2b(
  change: Partial<TimerSnapshot> = {},
  alternative: Partial<ChannelAlternative> = {},
  setting = lamp,
): Waveform[] {
  const snapshot = snapshotOf(uno2.timer, setting, change);
  const channels = snapshot.channels.map((channel) => ({
    ...channel,
    alternatives: channel.alternatives.map((one) => ({ ...one, ...alternative })),
  }));
  return channelWaveforms(uno2.chip, uno2.timer, { ...snapshot, channels }, uno2.timer.channels[1]!, clockHz);
}
const brief = (waveforms: readonly Waveform[]) =>
  waveforms.map(({ kind, level, driver }) => [kind, level, driver].filter((part) => part !== null).join(" "));
const bits = (zeros: number, ones: number): RegisterValue => ({
  min: ones,
  max: ~zeros & 0xff,
  zeros,
  ones,
  values: null,
});

describe("a timer that may not run", () => {
  it("holds its pins while it is switched off, held or without clock, and says why", () => {
    expect(oc2b({ powered: false })).toMatchObject([
      { kind: "level", level: null, driver: "timer", because: "timer 2 is switched off (PRTIM2)" },
    ]);
    expect(oc2b({ held: true })).toMatchObject([
      { kind: "level", level: null, because: "the prescaler is held in reset (TSM)" },
    ]);
    expect(oc2b({}, {}, { ...lamp, clock: 0 })).toMatchObject([{ because: "timer 2 has no clock selected" }]);
  });

  it("may run or not where that is not known", () => {
    expect(brief(oc2b({ powered: null }))).toEqual(["level timer", "pulse timer"]);
    expect(brief(oc2b({ held: null }))).toEqual(["level timer", "pulse timer"]);
  });

  it("is unknown where the undivided clock may pass the held prescaler", () => {
    expect(oc2b({ held: true }, {}, { ...lamp, clock: 1 })).toMatchObject([{ kind: "unknown" }]);
  });

  it("is unknown on its own crystal, and says what is usual", () => {
    const [waveform] = oc2b({ asynchronous: true });
    expect(waveform?.kind).toBe("unknown");
    expect(waveform?.because).toContain("32768 Hz");
    expect(brief(oc2b({ asynchronous: null }))).toEqual(["unknown", "pulse timer"]);
  });

  it("names the pin of an external clock", () => {
    const { chip, timer } = chipAndTimer("atmega328p", 1);
    const snapshot = snapshotOf(timer, { mode: 8, clock: 7, com: { A: 2 }, values: { ICR: 100, A: 50 } });
    expect(channelWaveforms(chip, timer, snapshot, timer.channels[0]!, clockHz)[0]?.because).toContain(
      "rising edges at pin PD5 (T1)",
    );
  });

  it("divides the frequency, not the ticks, by the CPU clock's divisor", () => {
    const [plain] = oc2b();
    const [divided] = oc2b({ clockDivisor: 4 });
    expect(divided!.highTicks).toEqual(plain!.highTicks);
    expect(divided!.frequencyHz!.min.num * 4 * plain!.frequencyHz!.min.den).toBe(
      plain!.frequencyHz!.min.num * divided!.frequencyHz!.min.den,
    );
    expect(oc2b({ clockDivisor: null })).toMatchObject([
      { kind: "unknown", because: "the CPU clock's divisor (CLKPR) is not known" },
    ]);
  });
});

describe("the pin", () => {
  it("is not driven while it is an input, and says what is attached", () => {
    expect(oc2b({}, { output: false })).toMatchObject([
      { kind: "not driven", driver: null, because: "OC2B is attached (COM2B = 2), but the pin is an input" },
    ]);
    expect(oc2b({}, { output: false, com: exactly(0, 2), high: true })).toMatchObject([
      { because: "the pin is an input with its pull-up on" },
    ]);
    expect(oc2b({}, { output: null })).toMatchObject([
      { kind: "unknown", because: "it is not known whether PD3 is an output" },
    ]);
  });

  it("shows the PORT bit while nothing is attached", () => {
    expect(brief(oc2b({}, { com: exactly(0, 2), high: true }))).toEqual(["level high port"]);
    expect(brief(oc2b({}, { com: exactly(0, 2), high: null }))).toEqual(["level port"]);
  });

  it("is one of several where analogWrite attaches for some values and detaches for others", () => {
    const snapshot = snapshotOf(uno2.timer, lamp);
    const running: RegisterValue = { min: 1, max: 254, zeros: 0, ones: 0, values: null };
    const alternatives: ChannelAlternative[] = [
      { com: exactly(0, 2), compare: running, output: true, high: false },
      { com: exactly(0, 2), compare: running, output: true, high: true },
      { com: exactly(2, 2), compare: running, output: true, high: false },
    ];
    const channels = [{ unit: "OC2B", alternatives }];
    const waveforms = channelWaveforms(
      uno2.chip,
      uno2.timer,
      { ...snapshot, channels },
      uno2.timer.channels[1]!,
      clockHz,
    );
    expect(brief(waveforms)).toEqual(["level low port", "level high port", "pulse timer"]);
    expect(waveforms[2]!.duty).toEqual({ min: { num: 1, den: 128 }, max: { num: 255, den: 256 } });
  });
});

describe("partly known control registers", () => {
  it("give one entry per mode and prescaler that they allow", () => {
    // Mode 3 or 7 (WGM22 not known), prescaler 64.
    const states = controlStates(uno2.timer, {
      ...snapshotOf(uno2.timer, lamp),
      registers: { TCCR2A: exactly(0b00100011, 8), TCCR2B: bits(0b11110011, 0b00000100) },
    });
    expect(states?.map(({ mode, clock }) => [mode.select, clock])).toEqual([
      [3, { kind: "divided", by: 64 }],
      [7, { kind: "divided", by: 64 }],
    ]);
  });

  it("keep the bits of one register together", () => {
    const states = controlStates(uno2.timer, {
      ...snapshotOf(uno2.timer, lamp),
      registers: { TCCR2A: exactly(3, 8), TCCR2B: { min: 2, max: 12, zeros: 0, ones: 0, values: [2, 12] } },
    });
    expect(states?.map(({ mode, clock }) => [mode.select, clock.kind === "divided" && clock.by])).toEqual([
      [3, 8],
      [7, 64],
    ]);
  });

  it("use bounds where no bits are known", () => {
    const states = controlStates(uno2.timer, {
      ...snapshotOf(uno2.timer, lamp),
      registers: { TCCR2A: exactly(1, 8), TCCR2B: { min: 1, max: 3, zeros: 0, ones: 0, values: null } },
    });
    expect(states?.map(({ mode, clock }) => [mode.select, clock.kind === "divided" && clock.by])).toEqual([
      [1, 1],
      [1, 8],
      [1, 32],
    ]);
  });

  it("are one unknown where they allow too much, but a detached pin stays known", () => {
    const { chip, timer } = chipAndTimer("atmega328p", 1);
    const snapshot = { ...snapshotOf(timer, { mode: 0, clock: 1, com: { A: 2 } }), registers: {}, working: {} };
    expect(channelWaveforms(chip, timer, snapshot, timer.channels[0]!, clockHz)).toMatchObject([
      { kind: "unknown", because: "the control registers of timer 1 allow more than 64 settings" },
    ]);
    expect(brief(channelWaveforms(chip, timer, snapshot, timer.channels[1]!, clockHz))).toEqual(["level low port"]);
    expect(modeNames(timer, snapshot)).toBe("any mode");
    // The 8-bit block has 64 settings in all: they are gone through.
    const all = { ...snapshotOf(uno2.timer, lamp), registers: {} };
    expect(controlStates(uno2.timer, all)).toHaveLength(64);
  });
});

describe("names and arithmetic", () => {
  it("names modes as the report does", () => {
    const { timer } = chipAndTimer("atmega328p", 1);
    expect(timer.modes.map((mode) => modeName(timer, mode))).toEqual([
      "normal, TOP 0xFFFF",
      "phase correct, TOP 0xFF",
      "phase correct, TOP 0x1FF",
      "phase correct, TOP 0x3FF",
      "CTC, TOP OCR1A",
      "fast PWM, TOP 0xFF",
      "fast PWM, TOP 0x1FF",
      "fast PWM, TOP 0x3FF",
      "phase and frequency correct, TOP ICR1",
      "phase and frequency correct, TOP OCR1A",
      "phase correct, TOP ICR1",
      "phase correct, TOP OCR1A",
      "CTC, TOP ICR1",
      "reserved (WGM1 = 13)",
      "fast PWM, TOP ICR1",
      "fast PWM, TOP OCR1A",
    ]);
    expect(modeNames(uno2.timer, snapshotOf(uno2.timer, { mode: 5, clock: 3 }))).toBe("phase correct, TOP OCR2A");
  });

  it.each([
    [{ mode: 5, clock: 3, com: { B: 2 }, values: { A: 248, B: 100 } }, 1, "16 MHz / (2 · 32 · 248)"],
    [{ mode: 3, clock: 4, com: { B: 2 }, values: { B: 100 } }, 1, "16 MHz / (64 · 256)"],
    [{ mode: 7, clock: 2, com: { B: 2 }, values: { A: 199, B: 100 } }, 1, "16 MHz / (8 · 200)"],
    [{ mode: 2, clock: 2, com: { B: 1 }, values: { A: 249, B: 100 } }, 1, "16 MHz / (2 · 8 · 250)"],
    [{ mode: 1, clock: 1, com: { B: 2 }, values: { B: 100 } }, 2, "16 MHz / 2 / (2 · 1 · 255)"],
  ] as const)("%o", (setting, clockDivisor, text) => {
    const [waveform] = oc2b({ clockDivisor }, {}, setting);
    // oc2b starts every channel from the setting, so the compare value of B is the setting's.
    expect(arithmetic(waveform!, clockHz, clockDivisor)).toBe(text);
  });

  it("toggles in a dual-slope mode at a quarter", () => {
    const snapshot = snapshotOf(uno2.timer, { mode: 5, clock: 2, com: { A: 1 }, values: { A: 200 } });
    const [waveform] = channelWaveforms(uno2.chip, uno2.timer, snapshot, uno2.timer.channels[0]!, clockHz);
    expect(arithmetic(waveform!, clockHz)).toBe("16 MHz / (4 · 8 · 200)");
  });

  it("gives the frequency that it says, and nothing for a level", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 7 }),
        fc.integer({ min: 1, max: 7 }),
        fc.integer({ min: 1, max: 2 }),
        fc.integer({ min: 0, max: 255 }),
        fc.integer({ min: 0, max: 255 }),
        (mode, clock, com, top, compare) => {
          for (const waveform of oc2b({}, {}, { mode, clock, com: { B: com }, values: { A: top, B: compare } })) {
            const text = arithmetic(waveform, clockHz);
            if (waveform.kind !== "pulse") {
              expect(text).toBeNull();
              continue;
            }
            const factors = /^16 MHz \/ \((.*)\)$/.exec(text!)![1]!.split(" · ").map(Number);
            expect(factors.reduce((product, factor) => product * factor, 1)).toBe(waveform.periodTicks!.min);
          }
        },
      ),
    );
  });

  it("shows clocks in their largest whole unit", () => {
    expect([16e6, 32768, 50, 14_745_600].map(showClock)).toEqual(["16 MHz", "32.768 kHz", "50 Hz", "14.7456 MHz"]);
  });
});

describe("the modulator of PB7 (2549 section 19)", () => {
  const { chip } = chipAndTimer("atmega2560", 0);
  const timer0 = chipAndTimer("atmega2560", 0).timer;
  const timer1 = chipAndTimer("atmega2560", 1).timer;
  const pb7 = (
    com0: number,
    com1: number,
    high: boolean | null,
    values: Record<string, number> = { A: 100, C: 100 },
  ) => {
    const set = (snapshot: TimerSnapshot): TimerSnapshot => ({
      ...snapshot,
      channels: snapshot.channels.map((channel) => ({
        ...channel,
        alternatives: channel.alternatives.map((one) => ({ ...one, high })),
      })),
    });
    return pinWaveforms(
      chip,
      "PB7",
      [
        set(snapshotOf(timer0, { mode: 3, clock: 3, com: { A: com0 }, values })),
        set(snapshotOf(timer1, { mode: 5, clock: 1, com: { C: com1 }, values })),
      ],
      clockHz,
    );
  };

  it("gives the pin to the one unit that is connected, to the port where none is", () => {
    expect(pb7(2, 0, false)[0]).toMatchObject({ kind: "pulse", prescaler: 64 });
    expect(pb7(0, 2, false)[0]).toMatchObject({ kind: "pulse", prescaler: 1 });
    expect(brief(pb7(0, 0, true))).toEqual(["level high port"]);
  });

  it("is AND with PORTB7 = 0 and OR with PORTB7 = 1 where one unit is constant", () => {
    // Compare value at TOP: OC0A constantly high.
    expect(pb7(2, 2, false, { A: 255, C: 100 })[0]).toMatchObject({ kind: "pulse", prescaler: 1 });
    expect(pb7(2, 2, true, { A: 255, C: 100 })[0]).toMatchObject({ kind: "level", level: "high" });
    // Inverted at TOP: OC0A constantly low.
    expect(pb7(3, 2, false, { A: 255, C: 100 })[0]).toMatchObject({ kind: "level", level: "low" });
    expect(pb7(3, 2, true, { A: 255, C: 100 })[0]).toMatchObject({ kind: "pulse", prescaler: 1 });
    expect(brief(pb7(2, 2, null, { A: 255, C: 100 })).sort()).toEqual(["level high timer", "pulse timer"]);
  });

  it("is unknown where both units run", () => {
    expect(pb7(2, 2, false)).toMatchObject([{ kind: "unknown" }]);
    expect(pb7(2, 2, false)[0]?.because).toContain("PB7 is the AND of both compare units");
  });

  it("leaves other pins to their one unit", () => {
    const snapshot = snapshotOf(timer0, { mode: 3, clock: 3, com: { B: 2 }, values: { B: 10 } });
    expect(pinWaveforms(chip, "PG5", [snapshot], clockHz)).toEqual(
      channelWaveforms(chip, timer0, snapshot, timer0.channels[1]!, clockHz),
    );
    expect(pinWaveforms(chip, "PA0", [snapshot], clockHz)).toEqual([]);
  });
});

describe("event rates", () => {
  const rates = (number: number, setting: Setting, change: Partial<TimerSnapshot> = {}) => {
    const { chip, timer } = chipAndTimer("atmega328p", number);
    return Object.fromEntries(
      eventRates(chip, timer, snapshotOf(timer, setting, change), clockHz).map(({ vector, rateHz }) => [
        vector,
        rateHz === null ? null : rateHz.min === rateHz.max ? rateHz.min : [rateHz.min, rateHz.max],
      ]),
    );
  };

  it("follow the tables (DS40002061 tables 15-8, 16-4: TOV set on)", () => {
    // The core's millisecond timer: fast PWM, prescaler 64: 976.5625 overflows a second.
    expect(rates(0, { mode: 3, clock: 3, values: { A: 10, B: 255 } })).toEqual({
      TIMER0_OVF: 976.5625,
      TIMER0_COMPA: 976.5625,
      TIMER0_COMPB: 976.5625,
    });
    expect(rates(1, { mode: 4, clock: 3, values: { A: 249, B: 250 } })).toEqual({
      TIMER1_OVF: 0,
      TIMER1_COMPA: 1000,
      TIMER1_COMPB: 0,
      TIMER1_CAPT: null,
    });
    expect(rates(1, { mode: 12, clock: 4, values: { ICR: 62499, A: 5 } })).toMatchObject({
      TIMER1_COMPA: 1,
      TIMER1_CAPT: 1,
      TIMER1_OVF: 0,
    });
    // Dual slope: a compare value inside is met twice per period, at BOTTOM and TOP once.
    expect(rates(1, { mode: 8, clock: 1, values: { ICR: 320, A: 80, B: 320 } })).toEqual({
      TIMER1_OVF: 25000,
      TIMER1_COMPA: 50000,
      TIMER1_COMPB: 25000,
      TIMER1_CAPT: 25000,
    });
    expect(rates(2, { mode: 1, clock: 0 })).toEqual({ TIMER2_OVF: 0, TIMER2_COMPA: 0, TIMER2_COMPB: 0 });
    expect(rates(2, { mode: 4, clock: 1 })).toEqual({ TIMER2_OVF: null, TIMER2_COMPA: null, TIMER2_COMPB: null });
  });

  it("contain every member of a range", () => {
    const { chip, timer } = chipAndTimer("atmega328p", 2);
    const small = fc.integer({ min: 0, max: 9 });
    fc.assert(
      fc.property(fc.constantFrom(0, 1, 2, 3, 5, 7), small, small, small, small, (mode, a, da, b, db) => {
        const range = (min: number, max: number): RegisterValue => ({ min, max, zeros: 0, ones: 0, values: null });
        const base = snapshotOf(timer, { mode, clock: 1 });
        const whole = eventRates(
          chip,
          timer,
          { ...base, working: { OCR2A: range(a, a + da), OCR2B: range(b, b + db) } },
          clockHz,
        );
        for (let top = a; top <= a + da; top++) {
          for (let compare = b; compare <= b + db; compare++) {
            const one = eventRates(
              chip,
              timer,
              snapshotOf(timer, { mode, clock: 1, values: { A: top, B: compare } }),
              clockHz,
            );
            for (const [index, rate] of one.entries()) {
              expect(rate.rateHz!.min).toBeGreaterThanOrEqual(whole[index]!.rateHz!.min);
              expect(rate.rateHz!.max).toBeLessThanOrEqual(whole[index]!.rateHz!.max);
            }
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});

it("counts what it claims to count (the counting oracle itself, by hand)", () => {
  const { timer } = chipAndTimer("atmega328p", 0);
  // Fast PWM, TOP 3, compare 1: high at counts 0 and 1. Dual slope, TOP 3, compare 1: high at 0 and 1 … of 0 1 2 3 2 1.
  expect(countOutput(timer.modes[7]!, 2, 3, 1).pulse).toEqual({ high: 2, period: 4 });
  expect(countOutput(timer.modes[5]!, 2, 3, 1).pulse).toEqual({ high: 2, period: 6 });
  expect(countOutput(timer.modes[5]!, 2, 3, 4)).toEqual({ pulse: null, levels: ["low", "high"] });
});
