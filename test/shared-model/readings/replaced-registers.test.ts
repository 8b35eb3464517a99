import { describe, expect, it } from "vitest";
import { findChip } from "../../../shared-model/chips/chips.js";
import { toNumber } from "../../../shared-model/fraction.js";
import { type Replacement, replaceRegisters } from "../../../shared-model/readings/replaced-registers.js";
import { exactly } from "../../../shared-model/register-value.js";
import type { TimerSnapshot } from "../../../shared-model/timer-snapshot.js";
import { pinWaveforms } from "../../../shared-model/waveforms/pin-waveforms.js";

const chip = findChip("atmega328p")!;

/** Timer 1 as the core leaves it with analogWrite on OC1A, or without for other values. */
const core: TimerSnapshot = {
  timer: 1,
  registers: {
    TCCR1A: { min: 0x01, max: 0x81, zeros: 0x7e, ones: 0x01, values: [0x01, 0x81] },
    TCCR1B: exactly(0x03, 8),
    TCCR1C: exactly(0, 8),
    OCR1A: exactly(60, 16),
    OCR1B: exactly(0, 16),
    ICR1: exactly(0, 16),
  },
  working: { OCR1A: exactly(60, 16), ICR1: exactly(0, 16) },
  channels: [
    {
      unit: "OC1A",
      alternatives: [
        { com: exactly(2, 2), compare: exactly(60, 16), output: true, high: false },
        { com: exactly(0, 2), compare: exactly(60, 16), output: true, high: false },
      ],
    },
    { unit: "OC1B", alternatives: [{ com: exactly(0, 2), compare: exactly(0, 16), output: false, high: false }] },
  ],
  powered: true,
  held: false,
  asynchronous: false,
  clockDivisor: 1,
};

const timer = chip.timers.find(({ number }) => number === 1)!;

function replaced(...replacements: Replacement[]) {
  return replaceRegisters(chip, timer, core, replacements);
}

function rates(...replacements: Replacement[]): number[] {
  const state = replaced(...replacements);
  if ("problem" in state) throw new Error(state.problem);
  return pinWaveforms(chip, "PB1", [state.snapshot], 16_000_000).flatMap(({ frequencyHz }) =>
    frequencyHz === null ? [] : [toNumber(frequencyHz.min)],
  );
}

describe("registers replaced in a state", () => {
  it("leave the output to analogWrite, whose alternatives stay", () => {
    expect(rates()).toEqual([16e6 / (64 * 510)]);
    const faster = replaced({ name: "TCCR1B", value: 1 });
    if ("problem" in faster) throw new Error(faster.problem);
    expect(pinWaveforms(chip, "PB1", [faster.snapshot], 16e6).map(({ kind }) => kind)).toEqual(["pulse", "level"]);
    // A value that leaves the COM bits 0 leaves the unit connected, as analogWrite comes after.
    expect(
      rates({ name: "TCCR1A", value: 0x02 }, { name: "TCCR1B", value: 0x19 }, { name: "ICR1", value: 400 }),
    ).toEqual([16e6 / 401]);
  });

  it("are named in either case, whole or by halves", () => {
    const whole = rates({ name: "tccr1a", value: 2 }, { name: "Tccr1B", value: 0x11 }, { name: "icr1", value: 0x140 });
    expect(whole).toEqual([25_000]);
    expect(
      rates(
        { name: "TCCR1A", value: 2 },
        { name: "TCCR1B", value: 0x11 },
        { name: "ICR1H", value: 0x01 },
        { name: "ICR1L", value: 0x40 },
      ),
    ).toEqual(whole);
  });

  it("may be the clock's, the port's or the power's", () => {
    expect(rates({ name: "CLKPR", value: 3 })).toEqual([16e6 / (8 * 64 * 510)]);
    expect(rates({ name: "DDRB", value: 0 })).toEqual([]);
    expect(rates({ name: "PRR", value: 0x08 })).toEqual([]);
    expect(rates({ name: "PRR", value: 0x40 })).toHaveLength(1);
  });

  it.each([
    ["OCR2A", 5, /does not belong to timer 1/],
    ["TCCR0B", 5, /does not belong to timer 1/],
    ["OCR9A", 5, /is no register of the atmega328p/],
    ["OCR1A", 70_000, /70000 does not fit the 16 bits/],
    ["TCCR1B", 256, /256 does not fit the 8 bits/],
    ["UBRR0L", 3, /does not decide what the pin puts out/],
    ["CLKPR", 12, /reserved/],
  ])("%s = %d cannot be worked out, and says why", (name, value, why) => {
    const answer = replaced({ name, value });
    expect("problem" in answer ? answer.problem : "").toMatch(why);
  });

  it("by some of their bits keep the others", () => {
    const state = replaced({ name: "TCCR1A", value: 0x02, mask: 0x03 });
    if ("problem" in state) throw new Error(state.problem);
    expect(state.snapshot.registers["TCCR1A"]!.values).toEqual([0x02, 0x82]);
    const inverted = replaced({ name: "TCCR1A", value: 0xc0, mask: 0xc0 });
    if ("problem" in inverted) throw new Error(inverted.problem);
    expect(inverted.snapshot.channels[0]!.alternatives.map(({ com }) => com.values)).toEqual([[3], [3]]);
  });
});
