/** Numbers as the trade reads them. */
import { describe, expect, it } from "vitest";
import { fixedHz, fixedShare } from "../../server/features/inlay-hints.js";
import {
  digits,
  either,
  listed,
  showBits,
  showBoundsHz,
  showHz,
  showNumbers,
  showSeconds,
  showShare,
  showValue,
} from "../../server/look/show.js";
import { fraction } from "../../shared-model/fraction.js";
import { exactly } from "../../shared-model/register-value.js";

describe("numbers in messages", () => {
  it("frequencies", () => {
    expect(showHz(fraction(16_000_000, 32 * 510))).toBe("980.392 Hz");
    expect(showHz(fraction(16_000_000, 2 * 32 * 100))).toBe("2500 Hz");
    expect(showHz(25_000)).toBe("25 kHz");
    expect(showHz(16_000_000)).toBe("16 MHz");
    expect(showHz(976.5625)).toBe("976.563 Hz");
    expect(showHz(0.5)).toBe("0.5 Hz");
    expect(showBoundsHz({ min: 980, max: 1020 })).toBe("980..1020 Hz");
  });

  it("shares never round up to 100 %", () => {
    expect(showShare(fraction(1, 256))).toBe("0.391 %");
    expect(showShare(0.9999)).toBe("99.99 %");
    expect(showShare(0.005)).toBe("0.5 %");
    expect(showShare(1)).toBe("100 %");
  });

  it("times", () => {
    expect(showSeconds(0.015625)).toBe("15.63 ms");
    expect(showSeconds(62.5e-9)).toBe("62.5 ns");
    expect(showSeconds(64)).toBe("64 s");
  });

  it("values and lists", () => {
    expect(showNumbers([249, 250, 251, 252, 253, 254])).toBe("249..254");
    expect(showNumbers([3, 5])).toBe("3 and 5");
    expect(showValue(exactly(7, 8))).toBe("7");
    expect(showBits({ ...exactly(4, 8), ones: 4, zeros: 0b11110000 }, 8)).toBe("0b0000_1__");
    expect(listed(["D3", "D5", "D6"])).toBe("D3, D5 and D6");
    expect(either(["a", "b"])).toBe("a or b");
    expect(digits(1000)).toBe("1000");
  });

  it("hints keep their width", () => {
    const widths = [0.25, 1, 30.637, 490.196, 980.392, 999.99, 1041.667, 62_500, 8_000_000].map(
      (hz) => fixedHz([hz]).length,
    );
    expect(new Set(widths).size).toBe(1);
    const shares = [0.0001, 0.05, 0.5, 0.9999].map((share) => fixedShare([share]).length);
    expect(new Set(shares).size).toBe(1);
  });
});
