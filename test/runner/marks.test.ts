/** The runner's own reading: marks, and signals as marks write them. A runner that cannot fail proves nothing. */
import { describe, expect, it } from "vitest";
import type { PinSignal } from "../../server/analysis.js";
import { fraction } from "../../shared-model/fraction.js";
import { readMarks } from "./marks.js";
import { contains, equals, readClaim, showSignal } from "./signal-claim.js";

describe("marks", () => {
  const source = 'OCR2B = 255;\n//=     ^^^ finding duty-past-top "248" todo\r\nint x;\n';

  it("are blanked out, length and line breaks kept", () => {
    const { text } = readMarks(source);
    expect(text.length).toBe(source.length);
    expect(text).toBe(`OCR2B = 255;\n${" ".repeat(44)}\r\nint x;\n`);
  });

  it("point with their carets at the line above", () => {
    const { marks } = readMarks(source);
    expect(marks).toHaveLength(1);
    expect(marks[0]).toMatchObject({
      kind: "finding",
      id: "duty-past-top",
      quotes: ["248"],
      claim: "todo",
      at: { start: 8, end: 11 },
    });
  });

  it("that cannot be read are a problem, not silence", () => {
    expect(readMarks("//= wibble 3\n").problems).toHaveLength(1);
    expect(readMarks("//= signal D3: pulse\n").problems).toHaveLength(1);
  });

  it("in the middle of a line are code", () => {
    expect(readMarks("x; //= finding a\n").marks).toHaveLength(0);
  });
});

describe("signals in marks", () => {
  const pulse: PinSignal = {
    kind: "pulse",
    level: null,
    driver: "timer",
    frequencyHz: { min: fraction(16_000_000, 16_320), max: fraction(16_000_000, 16_320) },
    duty: { min: fraction(1, 255), max: fraction(254, 255) },
    highTicks: { min: 64, max: 16_256 },
    periodTicks: { min: 16_320, max: 16_320 },
    steps: 256,
    top: { min: 255, max: 255 },
    prescaler: 32,
    because: null,
    regime: "running",
    when: null,
    from: [],
    state: 0,
  };
  const claim = (says: string) => readClaim(says)!;

  it("are equal to their last digit", () => {
    expect(equals(claim("pulse 980.392 Hz, duty 0.4..99.6 %, steps 256, prescaler 32, top 255"), pulse)).toBe(true);
    expect(equals(claim("pulse 980.393 Hz"), pulse)).toBe(false);
    expect(equals(claim("pulse 0.98 kHz"), pulse)).toBe(true);
    expect(equals(claim("pulse 980 Hz, duty 0.5..99.6 %"), pulse)).toBe(false);
    expect(equals(claim("low"), pulse)).toBe(false);
    expect(equals(claim("pulse 980 Hz, steps 255"), pulse)).toBe(false);
  });

  it("contain what lies inside them", () => {
    expect(contains(claim("pulse 980.392 Hz, duty 20..30 %"), pulse)).toBe(true);
    expect(contains(claim("pulse 980.392 Hz, duty 0.1..30 %"), pulse)).toBe(false);
    expect(contains(claim("pulse 490 Hz"), pulse)).toBe(false);
    expect(contains(claim("pulse 490 Hz"), { ...pulse, kind: "unknown" })).toBe(true);
    expect(contains(claim("low"), { ...pulse, kind: "level", level: null })).toBe(true);
  });

  it("that are no signal are refused", () => {
    expect(readClaim("a wave")).toBeNull();
    expect(readClaim("pulse fast")).toBeNull();
  });

  it("are shown in the words that marks use", () => {
    expect(showSignal(pulse)).toBe("pulse 980.392 Hz, duty 0.3922..99.61 %, steps 256");
    expect(equals(claim(showSignal(pulse)), pulse)).toBe(true);
    const untimed: PinSignal = { ...pulse, frequencyHz: null, duty: null, highTicks: null, periodTicks: null };
    expect(showSignal(untimed)).toBe("pulse not timed");
    expect(equals(claim("pulse not timed"), untimed)).toBe(true);
    expect(equals(claim("pulse not timed"), pulse)).toBe(false);
  });
});
