import { describe, expect, it } from "vitest";
import { findChip } from "../../../shared-model/chips/chips.js";
import { compareSlips, topSlips } from "../../../shared-model/readings/count-slips.js";
import type { SlipGround } from "../../../shared-model/readings/slip.js";
import { exactly } from "../../../shared-model/register-value.js";

const chip = findChip("atmega328p")!;

/** Timer 2, phase correct, TOP in OCR2A; the pin of unit B. */
function ground(top: number, compare: number): SlipGround {
  const timer = chip.timers.find(({ number }) => number === 2)!;
  return {
    timer,
    others: chip.timers.filter((each) => each !== timer),
    unit: "OC2B",
    snapshot: {
      timer: 2,
      registers: {
        TCCR2A: exactly(0x21, 8),
        TCCR2B: exactly(0x0b, 8),
        OCR2A: exactly(top, 8),
        OCR2B: exactly(compare, 8),
      },
      working: { OCR2A: exactly(top, 8) },
      channels: [],
      powered: true,
      held: false,
      asynchronous: false,
      clockDivisor: 1,
    },
  };
}

function values(slips: ReturnType<typeof topSlips>): ReadonlyMap<number, string> {
  return new Map([...slips].reverse().map(({ replacements, words }) => [replacements[0]!.value, words]));
}

describe("slips in a count", () => {
  it("are off by one, one bit, or another number base, as far as the register holds it", () => {
    const found = values(topSlips(ground(100, 20)));
    expect(found.get(99)).toBe("OCR2A = 99 in place of 100 (off by one)");
    expect(found.get(101)).toContain("off by one");
    expect(found.get(0x64 ^ 0x80)).toBe("OCR2A = 228 in place of 100 (one bit: bit 7 set as well)");
    expect(found.get(64)).toBe("OCR2A = 64 in place of 100 (64 for 0x64, decimal for hexadecimal)");
    expect([...found.keys()].every((value) => value >= 0 && value <= 255)).toBe(true);
  });
  it("cut what is wider than the register", () => {
    const found = values(topSlips(ground(250, 20)));
    expect(found.get(0x50)).toBe(
      "OCR2A = 80 in place of 250 (0x250 for 250, hexadecimal for decimal, of which 8 bits are kept)",
    );
  });
  it("of the duty include its complement", () => {
    expect(values(compareSlips(ground(248, 48))).get(200)).toBe(
      "OCR2B = 200 in place of 48 (the complement, counted from TOP)",
    );
  });
});
