/**
 * Plans worked out by hand. Formulas (DS40002061, 15.7, 16.9, 18.7): fast PWM f = clk / (N · (1 + TOP)), phase correct
 * f = clk / (2 · N · TOP), CTC toggling f = clk / (2 · N · (1 + OCRnA)). N of timer 2: 1, 8, 32, 64, 128, 256, 1024; of
 * timers 0, 1, 3, 4, 5: 1, 8, 64, 256, 1024.
 */
import { describe, expect, it } from "vitest";
import { ask, costs, line, lines } from "./asked.js";

describe("one pin, worked out by hand", () => {
  it("1 kHz within 980..1020 Hz on D3 of a nano", () => {
    const answer = ask("nano", { 3: "1 kHz within 980..1020 Hz" });
    // 16 MHz / (2 · 32 · 1000 Hz) = 250; fast PWM would have 16 MHz / (64 · 1000 Hz) = 250 counts, one step fewer.
    expect(line(answer.plans[0]!)).toBe("timer 2 mode 5 /32 TOP 250 com 2: 1000 Hz, 251 steps, yes");
    expect(answer.plans[0]).toMatchObject({
      front: true,
      because: "exact, 251 steps",
      setting: { topRegister: "OCR2A" },
    });
    expect(costs(answer.plans[0])).toEqual(["pin lost PB3"]);
    expect(answer.plans[0]!.costs[0]!.text).toBe("D11 can no longer have a duty of its own: OCR2A holds TOP");
    // 16 MHz / (2 · 32 · 253) = 988.142 Hz, less 0.5 % = 983.2 Hz; TOP 254: 984.252 Hz, less 0.5 % = 979.33 Hz, outside.
    expect(lines(answer)).toContain("timer 2 mode 5 /32 TOP 253 com 2: 988.1423 Hz, 254 steps, yes");
    expect(lines(answer)).toContain("timer 2 mode 5 /32 TOP 254 com 2: 984.252 Hz, 255 steps, marginal");
    // The core's mode with prescaler 32 takes nothing from D11: 16 MHz / (2 · 32 · 255) = 980.392 Hz.
    expect(lines(answer)).toContain("timer 2 mode 1 /32 TOP 255 com 2: 980.3922 Hz, 256 steps, marginal");
    // Timer 1 counts to 16 MHz / 1000 Hz = 16000.
    expect(answer.moves.map(({ label, because }) => `${label}: ${because}`)).toEqual([
      "D9: 16000 steps in place of 251",
      "D10: 16000 steps in place of 251",
    ]);
  });

  it("25 kHz on D9: fast PWM with TOP 639, phase correct with TOP 320", () => {
    const answer = ask("nano", { 9: "25 kHz" });
    // 16 MHz / 25 kHz = 640 counts; 16 MHz / (2 · 25 kHz) = 320.
    expect(lines(answer).slice(0, 2)).toEqual([
      "timer 1 mode 14 /1 TOP 639 com 2: 25000 Hz, 640 steps, yes",
      "timer 1 mode 10 /1 TOP 320 com 2: 25000 Hz, 321 steps, yes",
    ]);
    expect(costs(answer.plans[0])).toEqual(["spike at zero PB1"]);
    expect(costs(answer.plans[1])).toEqual([]);
    expect(answer.moves).toEqual([]);
  });

  it("a servo on D9: 50 Hz with pulses of 1 to 2 ms", () => {
    const best = ask("nano", { 9: "hobby-servo" }).plans[0]!;
    // 16 MHz / (8 · 50 Hz) = 40000 counts of 0.5 µs.
    expect(line(best)).toBe("timer 1 mode 14 /8 TOP 39999 com 2: 50 Hz, 40000 steps, yes");
    // Never outside over ±0.5 %: 1.000 ms · 1.005 = 2010 counts, 2.000 ms · 0.995 = 3980 counts; a value of n gives n + 1.
    expect(best.outputs[0]!.compareValues).toEqual({ min: 2009, max: 3979 });
    // Zero is not wanted of a servo: no word of a spike.
    expect(costs(best)).toEqual([]);
  });

  it("38 kHz on D3: 16 MHz / 38 kHz = 421.05 counts are too many for 8 bits without a prescaler", () => {
    // Phase correct: 16 MHz / (2 · 210) = 38095.2 Hz and / (2 · 211) = 37914.7 Hz: +0.2506 % and -0.2245 %.
    const best = ask("nano", { 3: "ir-38khz" }).plans[0]!;
    expect(line(best)).toBe("timer 2 mode 5 /1 TOP 211 com 2: 37914.69 Hz, 212 steps, yes");
    expect(best.outputs[0]!.error).toBeCloseTo(-0.002245, 6);
    // On D9 fast PWM has 421 counts: 16 MHz / 421 = 38004.75 Hz, +0.0125 %.
    expect(line(ask("nano", { 9: "ir-38khz" }).plans[0]!)).toBe(
      "timer 1 mode 14 /1 TOP 420 com 2: 38004.75 Hz, 421 steps, yes",
    );
  });

  it("a heater at 1 Hz: timer 1 alone counts that far", () => {
    // 16 MHz / (1024 · 1 Hz) = 15625 and / (256 · 1 Hz) = 62500 counts.
    expect(line(ask("nano", { 9: "heater-slow" }).plans[0]!)).toBe(
      "timer 1 mode 14 /256 TOP 62499 com 2: 1 Hz, 62500 steps, yes",
    );
    const answer = ask("nano", { 3: "heater-slow" });
    expect(answer.plans).toEqual([]);
    // Its slowest: toggling, 16 MHz / (2 · 1024 · 256) = 30.5 Hz; phase correct 16 MHz / (2 · 1024 · 255) = 30.6 Hz.
    expect(answer.why).toMatch(/no setting of timer 2 meets it on D3.*; D9 and D10 can$/);
    expect(answer.moves.map(({ label }) => label)).toEqual(["D9", "D10"]);
  });

  it("62.5 kHz is the core's fast PWM without a prescaler", () => {
    // 16 MHz / 256.
    const answer = ask("nano", { 9: "62.5 kHz" });
    expect(line(answer.plans[0]!)).toBe("timer 1 mode 5 /1 TOP 255 com 2: 62500 Hz, 256 steps, yes");
    expect(answer.plans[0]!.setting.topRegister).toBeNull();
  });
});
