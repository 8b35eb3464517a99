/** `pulsewright plan` as a person and as a program use it. */
import { describe, expect, it } from "vitest";
import { run } from "./run-main.js";

const plan = (...words: string[]) => run("plan", ...words);

describe("pulsewright plan", () => {
  it("prints what board and clock, the best plan first, its cost, its code, and where to wire it instead", async () => {
    const ran = await plan("--board", "nano", "--pin", "D3", "1 kHz within 980..1020 Hz");
    expect(ran.status).toBe(0);
    expect(ran.complaints).toEqual([]);
    expect(ran.out).toContain("Arduino Nano (nano), atmega328p at 16 MHz ±0.5 %");
    expect(ran.out).toMatch(/1\. +2 +phase correct, TOP OCR2A +32 +250 +1000 Hz +exact +251 +yes/);
    expect(ran.out).toContain("D11 can no longer have a duty of its own: OCR2A holds TOP");
    expect(ran.out).toContain("      OCR2A = 250;\n");
    expect(ran.out).toContain("      pinMode(3, OUTPUT);\n      // OCR2B = 0..250 gives 0..100 % on D3");
    expect(ran.out).toMatch(
      /Move the wire:\n +to D9 +16000 steps in place of 251\n +to D10 .*line of the SPI bus \(SS\)/,
    );
  });

  it("keeps the contract in JSON", async () => {
    const ran = await plan("--board=nano", "--pin=9", "--format=json", "25 kHz");
    const whole = JSON.parse(ran.out);
    expect(whole).toMatchObject({ schema: 1, pin: "9", want: "25 kHz" });
    expect(whole.plans[0]).toMatchObject({
      pin: "9",
      timer: 1,
      mode: "fast PWM, TOP ICR1",
      prescaler: 1,
      top: 639,
      frequencyHz: 25000,
      error: 0,
      steps: 640,
      verdict: "yes",
      front: true,
    });
    expect(whole.plans[0].costs[0]).toMatch(/one count \(62\.5 ns\)/);
    expect(whole.plans[0].code).toContain("ICR1 = 639;");
    expect(whole).not.toHaveProperty("why");
  });

  it("names pins in every way that boards and sheets do", async () => {
    for (const [board, pin, printed] of [
      ["nano", "D9", "9"],
      ["nano", "9", "9"],
      ["nano", "pb1", "9"],
      ["mega", "PB7", "13"],
      ["atmega328p", "PB1", "PB1"],
      ["atmega328p", "9", "PB1"],
    ] as const)
      expect(JSON.parse((await plan("--board", board, "--pin", pin, "--format", "json", "1 kHz")).out).pin).toBe(
        printed,
      );
  });

  it("serves two pins, and pins of two timers one by one", async () => {
    const both = JSON.parse((await plan("--pin", "9,10", "--format", "json", "25 kHz")).out);
    expect(both.plans[0]).toMatchObject({ pin: "9,10", timer: 1 });
    const apart = JSON.parse((await plan("--pin", "9,3", "--format", "json", "25 kHz", "1 kHz")).out);
    expect(apart.pin).toBe("9,3");
    expect(new Set(apart.plans.map(({ pin, timer }: { pin: string; timer: number }) => `${pin} ${timer}`))).toEqual(
      new Set(["9 1", "3 2"]),
    );
  });

  it("says why there is none, and answers 1", async () => {
    const ran = await plan("--pin", "3", "--keep", "11", "1 kHz");
    expect(ran.status).toBe(1);
    expect(ran.out.replace(/\s+/g, " ")).toContain(
      "No plan: every setting of timer 2 that would do on D3 changes D11, which must stay as it is; D9 and D10 can.",
    );
    const json = await plan("--pin", "3", "--format", "json", "1 Hz");
    expect(json.status).toBe(1);
    expect(JSON.parse(json.out)).toMatchObject({ plans: [], why: expect.stringMatching(/D9 and D10 can$/) });
  });

  it("takes the clock from the command line", async () => {
    const ran = await plan("--pin", "9", "--clock", "8MHz", "--format", "json", "25 kHz");
    const { clockHz, plans } = JSON.parse(ran.out);
    expect([clockHz, plans[0].top]).toEqual([8_000_000, 319]);
  });

  it("understands a whole comment copied from a sketch", async () => {
    expect(
      JSON.parse((await plan("--pin", "9", "--format", "json", "// wants D9: fan-4wire")).out).plans[0].verdict,
    ).toBe("yes");
  });

  it.each([
    [["1 kHz"], /plan needs a pin/],
    [["--pin", "9"], /needs what is wanted, in quotes/],
    [["--pin", "9", "25", "kHz"], /2 wants for 1 pin/],
    [["--pin", "9", "--board", "nono", "1 kHz"], /unknown board or chip "nono": did you mean uno or nano/],
    [["--pin", "99", "1 kHz"], /nano has no pin "99": it has D0..D13 and A0..A5/],
    [["--pin", "7", "1 kHz"], /no timer drives D7 of nano: D3, D5, D6, D9, D10, D11 have one/],
    [["--pin", "A0", "1 kHz"], /no timer drives A0/],
    [["--pin", "9", "1 mhz"], /cannot be read at column 3: expected MHz with a capital M/],
    [["--pin", "9", "  25 khz, duty 120 %"], /at column 16: expected at most 100 %/],
    [["--pin", "9", ""], /cannot be read at column 1/],
    [["--pin", "9,9", "1 kHz"], /given twice/],
    [["--pin", "9", "--keep", "9", "1 kHz"], /cannot be planned and kept/],
    [["--pin", "9", "--format", "markdown", "1 kHz"], /text or json/],
    [["--pin", "9", "--clock", "fast", "1 kHz"], /no clock/],
    [["--pin", "9", "--colour", "1 kHz"], /Unknown option '--colour'/],
  ])("%j is one clear line", async (words, line) => {
    const ran = await plan(...words);
    expect(ran.status).toBe(2);
    expect(ran.out).toBe("");
    expect(ran.complaints).toHaveLength(1);
    expect(ran.complaints[0]).toMatch(line);
    expect(ran.complaints[0]).not.toContain("\n");
  });
});
