/** What else is on the chip: pins in use, pins to keep, timers taken, buses, several wants on one timer, pins without a timer. */
import { describe, expect, it } from "vitest";
import { ask, costs, line } from "./asked.js";

const used = (port: string, hz: number | null, what = "PWM by analogWrite") => ({
  used: new Map([[port, { what, hz }]]),
});

describe("pins in use", () => {
  it("a plan that leaves a used pin alone goes before an exact one that does not", () => {
    // 16 MHz / (2 · 32 · 255) = 980.392 Hz with TOP 0xFF spares OCR2A; any other prescaler changes D11 all the same.
    const answer = ask("nano", { 3: "490 Hz" }, { occupation: used("PB3", 16e6 / 64 / 510) });
    expect(line(answer.plans[0]!)).toBe("timer 2 mode 1 /64 TOP 255 com 2: 490.1961 Hz, 256 steps, yes");
    expect(costs(answer.plans[0])).toEqual([]);
  });

  it("a used pin that loses its duty is named, and another wire is offered", () => {
    const answer = ask("nano", { 3: "1 kHz" }, { occupation: used("PB3", 16e6 / 64 / 510) });
    expect(costs(answer.plans[0])).toEqual(["! pin lost PB3"]);
    expect(answer.plans[0]!.costs[0]!.text).toBe("D11 (PWM by analogWrite) loses its duty: OCR2A holds TOP");
    expect(answer.moves[0]).toMatchObject({ label: "D9", because: "hurts nothing that is in use, 16000 steps" });
  });

  it("another frequency of a used pin is told with both numbers", () => {
    // 16 MHz / (2 · 1000) = 8 kHz on both.
    const answer = ask("nano", { 9: "8 kHz" }, { occupation: used("PB2", 16e6 / 64 / 510) });
    expect(answer.plans[0]!.costs.map(({ text }) => text)).toContain(
      "D10 (PWM by analogWrite) goes from 490.196 Hz to 8000 Hz, its duty counts to 1999",
    );
  });

  it("a pin that no timer drives is not touched by any setting", () => {
    const answer = ask("nano", { 3: "1 kHz" }, { occupation: used("PB3", null, "read by digitalRead") });
    expect(costs(answer.plans[0])).toEqual(["pin lost PB3"]);
  });

  it("a timer that something else has taken", () => {
    const answer = ask("nano", { 3: "1 kHz" }, { occupation: { taken: new Map([[2, "tone on pin 8"]]) } });
    expect(costs(answer.plans[0])).toEqual(["pin lost PB3", "! timer shared"]);
    expect(answer.moves[0]!.label).toBe("D9");
  });
});

describe("pins to keep", () => {
  it("nothing that changes them is offered, and why says so", () => {
    const answer = ask("nano", { 3: "1 kHz" }, { occupation: { kept: new Set(["PB3"]) } });
    expect(answer.plans).toEqual([]);
    expect(answer.why).toBe(
      "every setting of timer 2 that would do on D3 changes D11, which must stay as it is; D9 and D10 can",
    );
  });

  it("the setting that the timer has today stays possible", () => {
    const answer = ask("nano", { 3: "490 Hz" }, { occupation: { kept: new Set(["PB3"]) } });
    expect(answer.plans.map(line)).toEqual(["timer 2 mode 1 /64 TOP 255 com 2: 490.1961 Hz, 256 steps, yes"]);
  });

  it("a pin kept on another timer is in nobody's way", () => {
    expect(ask("nano", { 3: "1 kHz" }, { occupation: { kept: new Set(["PB1"]) } }).plans.length).toBeGreaterThan(0);
  });
});

describe("the millisecond clock", () => {
  it("is moved by every frequency of D6 but the core's own", () => {
    // 16 MHz / (64 · 256) = 976.5625 Hz.
    expect(costs(ask("nano", { 6: "976.56 Hz" }).plans[0])).toEqual(["spike at zero PD6"]);
    const moved = ask("nano", { 6: "62.5 kHz" }).plans[0]!;
    expect(costs(moved)).toEqual(["! time base", "spike at zero PD6"]);
    expect(moved.costs[0]!.text).toBe(
      "timer 0 counts the milliseconds: delay(1000) lasts 15.63 ms, millis() and micros() run 64 times too fast",
    );
  });

  it("does not matter to a program without it", () => {
    expect(costs(ask("nano", { 6: "62.5 kHz" }, { occupation: { timeBase: null } }).plans[0])).toEqual([
      "spike at zero PD6",
    ]);
  });
});

describe("several wants on one timer", () => {
  it("one setting serves both pins", () => {
    const best = ask("nano", { 9: "25 kHz", 10: "25 kHz, duty 20..100 %" }).plans[0]!;
    // 640 counts: a fifth is 128 of them, which the compare value 127 gives.
    expect(line(best)).toBe("timer 1 mode 14 /1 TOP 639 com 2: 25000 Hz, 640 steps, yes");
    expect(best.outputs.map(({ port, compareValues }) => [port, compareValues])).toEqual([
      ["PB1", { min: 0, max: 639 }],
      ["PB2", { min: 127, max: 639 }],
    ]);
  });

  it("a toggling pin goes at half the other's frequency", () => {
    const answer = ask("nano", { 9: "10 kHz", 10: "20 kHz" });
    // OC1A toggles at each TOP of 400, 16 MHz / (4 · 400); OC1B has its duty in each run of 2 · 400 counts.
    expect(line(answer.plans[0]!)).toBe(
      "timer 1 mode 11 /1 TOP 400 com 1: 10000 Hz, 1 steps; com 2: 20000 Hz, 401 steps, yes",
    );
  });

  it("a clash names the pins and a wire to move", () => {
    const answer = ask("nano", { 9: "25 kHz", 10: "50 Hz" });
    expect(answer.plans).toEqual([]);
    expect(answer.why).toMatch(/^timer 1 has one period for all its pins: each of D9 and D10 can be had alone/);
    expect(answer.why).toMatch(/move the wire of one of them: D3 and D11 can$/);
  });

  it("pins of two timers are two questions", () => {
    expect(ask("nano", { 9: "1 kHz", 3: "1 kHz" }).why).toBe(
      "no timer drives them all: D3 on timer 2 and D9 on timer 1; ask for each timer by itself",
    );
  });
});

describe("where there is no plan", () => {
  it("no timer on this pin: these pins can", () => {
    const answer = ask("nano", { 7: "1 kHz" });
    expect(answer.why).toBe("no timer drives D7; D9, D10, D3 and D11 can");
    expect(answer.nearest).toEqual([]);
  });

  it("too many steps: the nearest says how many there can be", () => {
    // 16 MHz / 24.875 kHz (so that 0.5 % less is 24.75 kHz) = 643.2 counts.
    const answer = ask("nano", { 9: "25 kHz, 1000 steps" });
    expect(answer.nearest.map(line)).toEqual(["timer 1 mode 14 /1 TOP 642 com 2: 24883.36 Hz, 643 steps, no"]);
    expect(answer.why).toContain("only 643 duty steps, 1000 wanted");
  });

  it("too fast for any timer", () => {
    // Toggling at every count: 16 MHz / 2.
    const answer = ask("nano", { 9: "10 MHz" });
    expect(answer.plans).toEqual([]);
    expect(answer.nearest[0]!.outputs[0]!.frequencyHz).toEqual({ num: 8_000_000, den: 1 });
    expect(answer.why).toMatch(/nor can any other free pin$/);
  });
});

describe("the mega", () => {
  it.each([
    [5, 3],
    [2, 3],
    [3, 3],
    [6, 4],
    [8, 4],
    [46, 5],
    [44, 5],
    [11, 1],
  ])("D%i counts 25 kHz with timer %i", (pin, timer) => {
    expect(line(ask("mega", { [pin]: "25 kHz" }).plans[0]!)).toBe(
      `timer ${timer} mode 14 /1 TOP 639 com 2: 25000 Hz, 640 steps, yes`,
    );
  });

  it("D13 hangs on timers 0 and 1: timer 1 hurts nothing, and analogWrite takes the other", () => {
    const best = ask("mega", { 13: "25 kHz" }).plans[0]!;
    expect(line(best)).toBe("timer 1 mode 14 /1 TOP 639 com 2: 25000 Hz, 640 steps, yes");
    expect(costs(best)).toEqual(["spike at zero PB7", "second unit PB7"]);
  });
});

describe("where any frequency does", () => {
  it("the nearest to today's goes first", () => {
    const answer = ask("nano", { 9: "100 steps" });
    expect(answer.plans[0]!.because).toMatch(/nearest to what it is today$/);
    const { num, den } = answer.plans[0]!.outputs[0]!.frequencyHz;
    expect(num / den).toBeCloseTo(490.2, 0);
    expect(answer.plans.some(({ setting }) => setting.top === 65535)).toBe(true);
  });
});
