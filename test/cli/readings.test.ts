import { afterEach, describe, expect, it } from "vitest";
import type { Report } from "../../shared-model/report.js";
import { folderOf, removeFolders } from "../files/folder-of.js";
import { run } from "./run-main.js";

afterEach(removeFolders);

const LAMP = "void setup() { pinMode(3, OUTPUT); }\nvoid loop() { analogWrite(3, 90); delay(5); }\n";

async function reading(comment: string) {
  const folder = folderOf({ "lamp/lamp.ino": `${comment}\n${LAMP}` });
  const { out } = await run("report", folder, "--format", "json");
  return (JSON.parse(out) as Report).sketches[0]!.readings[0];
}

describe("bench readings", () => {
  it("that fit estimate the clock's error, with their own uncertainty", async () => {
    const found = await reading("// bench reads D3: 491 Hz");
    expect(found).toMatchObject({ pin: "3", line: 1, fits: "yes" });
    // 490.196 Hz is predicted; 491 Hz is read to half a hertz.
    expect(found?.clockError?.min).toBeCloseTo(490.5 / 490.196 - 1, 5);
    expect(found?.clockError?.max).toBeCloseTo(491.5 / 490.196 - 1, 5);
  });
  it("that do not fit say so", async () => {
    expect(await reading("// bench reads D3: 980 Hz")).toMatchObject({ fits: "no", clockError: null });
  });
  it("of a pin that the sketch leaves alone are not judged", async () => {
    expect(await reading("// bench reads D9: 490 Hz")).toMatchObject({ pin: "9", fits: "unknown" });
  });
  it("of another register state are judged by that state", async () => {
    expect(await reading("// bench reads D3 with TCCR2B = 0x03: 980 Hz")).toMatchObject({ fits: "yes" });
    expect(await reading("// bench reads D3 with tccr2b = 3, tccr2a = 0x03: 1.953 kHz")).toMatchObject({ fits: "yes" });
    // OCR2A is not TOP in the core's mode: it cannot move pin 3.
    expect(await reading("// bench reads D3 with OCR2A = 0xFE: 985 Hz")).toMatchObject({ fits: "no" });
  });
  it("of registers that cannot be worked out are unknown", async () => {
    for (const register of ["OCR1A = 5", "SPDR = 5", "OCR2C = 5", "OCR2A = 300"])
      expect(await reading(`// bench reads D3 with ${register}: 490 Hz`)).toMatchObject({ fits: "unknown" });
  });
});

/** The check case (trade facts, common practice, no source): prescaler 32, phase correct, TOP in OCR2A. */
const BEACON = `// wants D3: 1 kHz within 1000..1020 Hz
// bench reads D3 with OCR2A = 255: 981 Hz
// bench reads D3 with OCR2A = 0xFE: 985 Hz
// bench reads D3 with ocr2a = 0xF0: 1.04 kHz
// bench reads D3: 1.00 kHz
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);
  OCR2A = 0xF8;
  OCR2B = 60;
}
void loop() {}
`;

describe("several bench readings", () => {
  it("give the clock's error, which later verdicts use, and name the one that does not fit", async () => {
    const folder = folderOf({ "beacon/beacon.ino": BEACON });
    const { out } = await run("report", folder, "--format", "json");
    const [sketch] = (JSON.parse(out) as Report).sketches;
    expect(sketch!.readings.map(({ fits }) => fits)).toEqual(["yes", "yes", "yes", "no"]);
    expect(sketch!.readings[3]!.explanations[0]).toMatch(/^OCR2A = 250 in place of 248 .* would give 1000 Hz$/);
    // 1008.06 Hz nominal would be marginal over ±0.5 %; by the readings it is not.
    expect(sketch!.wants[0]).toMatchObject({ met: "yes" });
    expect(sketch!.wants[0]!.reasons.join()).toContain("+0.025..+0.113 % by 3 bench readings");
    expect(sketch!.clockTolerance).toBe(0.005);
    expect(sketch!.findings.map(({ id }) => id)).toEqual(["reading-disagrees"]);
  });
});
