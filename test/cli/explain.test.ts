import { join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import type { ExplainReport } from "../../shared-model/report.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { run } from "./run-main.js";

afterEach(removeFolders);

async function explained(...words: string[]): Promise<ExplainReport> {
  const { out, complaints } = await run("explain", ...words, "--format", "json");
  expect(complaints).toEqual([]);
  return JSON.parse(out) as ExplainReport;
}

function sketch(text: string): string {
  return join(folderOf({ "lamp/lamp.ino": text }), "lamp", "lamp.ino");
}

/** A lamp's dimmer: phase correct, prescaler 32, TOP 248. */
const LAMP = `void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
  OCR2A = 248;
  OCR2B = 62;
}
void loop() {}
`;

describe("explain with a sketch", () => {
  it("names the nearest slip first, with frequency and registers", async () => {
    const found = await explained("--board", "nano", "--pin", "3", "1.00 kHz +-2 Hz", sketch(LAMP));
    expect(found).toMatchObject({
      schema: 1,
      pin: "3",
      reading: "1.00 kHz +-2 Hz",
      fits: "no",
      predicted: "1008.06 Hz",
    });
    expect(found.explanations[0]).toEqual({
      frequencyHz: 1000,
      registers: { OCR2A: { values: [250] } },
      slip: "OCR2A = 250 in place of 248 (one bit: bit 1 set as well)",
      rank: 1,
    });
    expect(found.explanations.map(({ rank }) => rank)).toEqual(found.explanations.map((_, index) => index + 1));
    expect(found.explanations.length).toBeLessThanOrEqual(6);
  });

  it("takes registers that were held meanwhile", async () => {
    const fits = await explained("--pin", "D3", "with OCR2A = 0xFE: 984 Hz", sketch(LAMP));
    expect(fits).toMatchObject({ fits: "yes", explanations: [{ registers: {}, rank: 1 }] });
    const missed = await explained("--pin", "PD3", "with OCR2A = 0xFE: 492 Hz", sketch(LAMP));
    expect(missed.fits).toBe("no");
    expect(missed.explanations[0]!.slip).toContain("prescaler 64 in place of 32");
  });

  it("uses the clock that the sketch's own readings tell of", async () => {
    const readings = "// bench reads D3: 1004.0 Hz\n// bench reads D3 with OCR2A = 255: 976.5 Hz\n";
    const with_ = await explained("--pin", "3", "1004.1 Hz", sketch(readings + LAMP));
    expect(with_.fits).toBe("yes");
    const without = await explained("--pin", "3", "1010 Hz", sketch(readings + LAMP));
    expect(without.fits).toBe("no");
  });

  it.each([
    ["504 Hz", /prescaler 64 in place of 32 \(CS22..0 = 011 is 64 on timer 0/],
    ["504 Hz", /a clock of 8 MHz in place of 16 MHz/],
    ["126 Hz", /CKDIV8/],
    ["980 Hz", /TOP 0xFF in place of phase correct, TOP OCR2A \(WGM22 missing\)/],
    ["2.008 kHz", /fast PWM, TOP OCR2A in place of phase correct/],
    ["with OCR2A = 100: 2.525 kHz", /OCR2A = 99 in place of 100 \(off by one\)/],
    ["1008 Hz, duty 75 %", /output inverted in place of not inverted/],
    ["428 Hz", /^$/],
  ])("%s may be %s", async (reading, slip) => {
    const { explanations } = await explained("--pin", "3", reading, sketch(LAMP));
    const words = explanations.map((each) => each.slip);
    if (slip.source === "^$") expect(words.filter((each) => /one bit|off by one/.test(each))).toEqual([]);
    else expect(words.filter((each) => slip.test(each))).toHaveLength(1);
  });

  it("finds the line that went wrong", async () => {
    const pump = `void setup() {
  pinMode(11, OUTPUT);
  TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21);
}
void loop() { analogWrite(11, 90); }
`;
    // CS22 stays from the core's init: 256 where 8 is meant.
    const kept = await explained("--pin", "11", "122.5 Hz", sketch(pump));
    expect(kept.explanations[0]!.slip).toMatch(
      /^line 3 \(TCCR2B = .*\) without its mask, so prescaler 256 in place of 8$/,
    );
    const lost = await explained("--pin", "11", "490 Hz", sketch(pump));
    expect(lost.explanations.map(({ slip }) => slip)).toContainEqual(
      expect.stringMatching(/^line 3 .* left out, so prescaler 64 in place of 8$/),
    );
  });

  it("finds the other pin", async () => {
    const two = "void setup() {}\nvoid loop() { analogWrite(3, 90); analogWrite(5, 90); }\n";
    const { explanations } = await explained("--pin", "3", "977 Hz", sketch(two));
    expect(explanations.map(({ slip }) => slip)).toContain("D5 measured in place of D3");
    const silent = await explained("--pin", "9", "977 Hz", sketch(two));
    expect(silent.fits).toBe("unknown");
    expect(silent.explanations.map(({ slip }) => slip)).toContain("D5 measured in place of D9");
  });
});

describe("explain without a sketch", () => {
  it("says what settings give the reading, usual ones first", async () => {
    const found = await explained("--board", "uno", "--pin", "11", "31.4 kHz, duty 50 %");
    expect(found.explanations[0]).toMatchObject({ slip: "phase correct, TOP 0xFF, prescaler 1", rank: 1 });
    const wide = await explained("--board", "mega", "--pin", "6", "25.00 kHz");
    expect(wide.explanations[0]).toMatchObject({ frequencyHz: 25000 });
    expect(Object.keys(wide.explanations[0]!.registers)).toContain("ICR4");
  });
  it("knows what the core sets", async () => {
    const found = await explained("--board", "nano", "--pin", "5", "977 Hz");
    expect(found).toMatchObject({ fits: "yes", predicted: "976.563 Hz" });
    expect(found.explanations[0]!.slip).toMatch(/^no slip/);
  });
  it("holds registers to what was said", async () => {
    const { explanations } = await explained("--board", "nano", "--pin", "3", "with OCR2A = 0xFE: 985 Hz");
    expect(explanations[0]!.slip).toBe("phase correct, TOP OCR2A, prescaler 32, OCR2A = 254");
  });
});

describe("explain", () => {
  it("prints for the bench", async () => {
    const { out, status } = await run("explain", "--pin", "3", "1.00 kHz +-2 Hz", sketch(LAMP));
    expect(status).toBe(0);
    expect(out).toMatch(/^D3 of Arduino Nano at 16 MHz, clock ±0.5 %\n {2}read {7}1.00 kHz \+-2 Hz\n/);
    expect(out).toContain("  1  1000 Hz     OCR2A = 250 in place of 248 (one bit: bit 1 set as well)\n");
  });
  it.each([
    [[], /needs one pin/],
    [["--pin", "3"], /needs what was read/],
    [["--pin", "3", "985"], /cannot be read at column 4: expected a unit/],
    [["--pin", "3", "with OCR2A: 985 Hz"], /cannot be read at column 11: expected = and the register's value/],
    [["--pin", "3", ""], /cannot be read at column 1/],
    [["--pin", "3", "985 Hz", "a", "b"], /"b" is too much/],
    [["--pin", "3", "985 Hz", "--format", "xml"], /printed as text or json/],
    [["--pin", "99", "985 Hz"], /has no pin "99"/],
    [["--pin", "4", "985 Hz"], /no timer drives 4/],
    [["--board", "nowhere", "--pin", "3", "985 Hz"], /unknown board or chip/],
    [["--pin", "3", "985 Hz", "no-such.ino"], /there is no such file/],
  ])("%j is one clear line and status 2", async (words, complaint) => {
    const { status, out, complaints } = await run("explain", ...words);
    expect({ status, out, lines: complaints.length }).toEqual({ status: 2, out: "", lines: 1 });
    expect(complaints[0]).toMatch(complaint);
  });
});
