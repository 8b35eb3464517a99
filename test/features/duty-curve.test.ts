/** The curve from the input to the duty, input by input beside the data sheet's formulas, and beside sketches with a constant. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type DutyCurve, dutyCurves } from "../../server/features/duty-curve.js";
import { curvePicture } from "../../server/features/duty-curve-picture.js";
import { curveLine, curvePlot, curveRows, usedSteps } from "../../server/features/duty-curve-text.js";
import { toNumber } from "../../shared-model/fraction.js";
import { analysedText } from "../runner/analysed-sketch.js";

async function curvesOf(sketch: string): Promise<readonly DutyCurve[]> {
  return dutyCurves((await analysedText(sketch)).analysis);
}

async function curveOf(sketch: string): Promise<DutyCurve> {
  const curves = await curvesOf(sketch);
  expect(curves).toHaveLength(1);
  return curves[0]!;
}

const shares = (curve: DutyCurve): readonly (number | null)[] =>
  curve.points.map(({ duty }) => (duty === null ? null : toNumber(duty)));

/** An expression of `x` in the sketch, and what the chip makes of it: 16-bit int unless it says long. */
interface Scaling {
  readonly code: string;
  readonly of: (x: number) => number;
}

const scaling: fc.Arbitrary<Scaling> = fc.oneof(
  fc.integer({ min: 1, max: 9 }).map((by) => ({ code: `x / ${by}`, of: (x: number) => Math.floor(x / by) })),
  fc.integer({ min: 0, max: 4 }).map((by) => ({ code: `x >> ${by}`, of: (x: number) => x >> by })),
  fc.tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 400 })).map(([low, high]) => ({
    code: `map(x, 0, 1023, ${low}, ${high})`,
    of: (x: number) => Math.trunc((x * (high - low)) / 1023) + low,
  })),
  fc
    .integer({ min: 2, max: 1000 })
    .map((by) => ({ code: `(long)x * ${by} / 1024`, of: (x: number) => Math.floor((x * by) / 1024) })),
  fc.tuple(fc.integer({ min: 0, max: 100 }), fc.integer({ min: 101, max: 255 })).map(([low, high]) => ({
    code: `constrain(x, ${low}, ${high})`,
    of: (x: number) => Math.min(Math.max(x, low), high),
  })),
  fc
    .integer({ min: 200, max: 300 })
    .map((from) => ({ code: `${from} - x / 4`, of: (x: number) => from - Math.floor(x / 4) })),
);

interface Wave {
  readonly setup: string;
  readonly top: number;
  readonly fast: boolean;
  readonly pin: number;
  readonly register: string;
  readonly width: number;
  readonly inverted: boolean;
}

/** Modes with TOP of one's own on both blocks (DS40002061, tables "Waveform Generation Mode Bit Description"). */
const wave: fc.Arbitrary<Wave> = fc.oneof(
  fc.tuple(fc.integer({ min: 3, max: 255 }), fc.boolean(), fc.boolean()).map(([top, fast, inverted]) => ({
    setup: `OCR2A = ${top}; TCCR2A = ${fast ? "_BV(WGM21) | " : ""}_BV(WGM20)${inverted ? " | _BV(COM2B0)" : ""} | _BV(COM2B1); TCCR2B = _BV(WGM22) | _BV(CS21);`,
    top,
    fast,
    pin: 3,
    register: "OCR2B",
    width: 256,
    inverted,
  })),
  fc.tuple(fc.integer({ min: 3, max: 1200 }), fc.boolean(), fc.boolean()).map(([top, fast, inverted]) => ({
    setup: `TCCR1A = _BV(WGM11)${inverted ? " | _BV(COM1A0)" : ""} | _BV(COM1A1); TCCR1B = ${fast ? "_BV(WGM12) | " : ""}_BV(WGM13) | _BV(CS10); ICR1 = ${top};`,
    top,
    fast,
    pin: 9,
    register: "OCR1A",
    width: 65536,
    inverted,
  })),
);

/** The data sheet's duty of a compare value (DS40002061, 15.7.3, 15.7.4, 16.9.3, 16.9.4); null: a level that it leaves open. */
function dutyBySheet({ top, fast, inverted }: Wave, compare: number): number | null {
  if (!fast && compare > top) return null;
  const high = fast ? Math.min(1, (compare + 1) / (top + 1)) : compare / top;
  return inverted ? 1 - high : high;
}

/**
 * What 0 and 255 leave: the core clears the upper COM bit alone (turnOffPWM in wiring_digital.c). A lower one that stays is
 * reserved for channel B of the 8-bit block, the port's level for channel A in mode 10, and toggling in mode 14 (tables
 * "Compare Output Mode").
 */
function leftByCore({ inverted, register, fast }: Wave, level: 0 | 1): number | null {
  if (!inverted) return level;
  if (register === "OCR2B") return null;
  return fast ? 0.5 : level;
}

describe("the curve", () => {
  it("is, at every input, what the data sheet's formulas give", async () => {
    await fc.assert(
      fc.asyncProperty(wave, scaling, fc.boolean(), async (made, scaled, byCore) => {
        const write = byCore ? `analogWrite(${made.pin}, ${scaled.code});` : `${made.register} = ${scaled.code};`;
        const sketch = `void setup() { pinMode(${made.pin}, OUTPUT); ${made.setup} }\nvoid loop() { int x = analogRead(A0); ${write} delay(9); }\n`;
        const curves = await curvesOf(sketch);
        const values = Array.from({ length: 1024 }, (_, x) => scaled.of(x));
        // What is one value for all readings is a constant, and has none.
        if (curves.length === 0) {
          // Known weakness: `R = c ? a : b` is followed as two ways, each with a part of the readings.
          const chosen = !byCore && scaled.code.startsWith("constrain");
          expect(chosen || new Set(values).size === 1, sketch).toBe(true);
          return;
        }
        const expected = values.map((value) => {
          if (byCore && (value === 0 || value === 255)) return leftByCore(made, value === 0 ? 0 : 1);
          return dutyBySheet(made, ((value % made.width) + made.width) % made.width);
        });
        const seen = shares(curves[0]!);
        expect(
          curves[0]!.points.map(({ value }) => value),
          sketch,
        ).toEqual(values);
        const wrong = expected.findIndex((share, x) =>
          share === null || seen[x] == null ? share !== seen[x] : Math.abs(share - seen[x]) > 1e-12,
        );
        expect(wrong, `${sketch}at ${wrong}: ${seen[wrong]}, not ${expected[wrong]}`).toBe(-1);
        check(curves[0]!);
      }),
      { numRuns: 60, seed: 5 },
    );
  }, 120_000);

  it("is what the same sketch gives with the reading as a constant", async () => {
    await fc.assert(
      fc.asyncProperty(wave, scaling, fc.integer({ min: 0, max: 1023 }), async (made, scaled, x) => {
        const sketch = (reading: string): string =>
          `void setup() { pinMode(${made.pin}, OUTPUT); ${made.setup} }\nvoid loop() { int x = ${reading}; analogWrite(${made.pin}, ${scaled.code}); delay(9); }\n`;
        const [curve] = await curvesOf(sketch("analogRead(A0)"));
        if (curve === undefined) return;
        const { analysis } = await analysedText(sketch(String(x)));
        const signals = analysis.pins
          .find(({ pin }) => pin === String(made.pin))!
          .signals.filter(({ regime }) => regime === "running");
        const duties = signals.map(({ kind, duty, level }) =>
          kind === "pulse" ? toNumber(duty!.min) : level === null ? null : level === "high" ? 1 : 0,
        );
        expect([...new Set(duties)], sketch(String(x))).toEqual([shares(curve)[x]]);
      }),
      { numRuns: 80, seed: 6 },
    );
  }, 120_000);
});

/** What holds for the facts and the words of every curve. */
function check(curve: DutyCurve): void {
  const all = shares(curve);
  const same = (share: number | null, end: number | null): boolean =>
    share === end || ((share === null || share === 0 || share === 1) && (end === null || end === 0 || end === 1));
  for (let at = 0; at <= curve.deadLow; at++) expect(same(all[at]!, all[0]!)).toBe(true);
  for (let at = 0; at <= curve.deadHigh; at++) expect(same(all.at(-1 - at)!, all.at(-1)!)).toBe(true);
  expect(curve.used).toBe(new Set(all.filter((share) => share !== null)).size);
  expect(curveRows(curve).length).toBeLessThanOrEqual(12);
  const inputs = curveRows(curve).map(({ input }) => Number(input));
  expect(inputs).toEqual([...new Set(inputs)].sort((a, b) => a - b));
  for (const row of curvePlot(curve)) expect(row.length).toBeLessThanOrEqual(80);
  expect(curveLine(curve) ?? "").not.toMatch(/undefined|NaN|Infinity/);
  const picture = curvePicture(curve);
  expect(picture).toMatch(/^<svg [^>]*viewBox="0 0 \d+ \d+".*<\/svg>$/s);
  expect(picture).not.toMatch(/undefined|NaN|Infinity|#[0-9a-fA-F]{3}|background/);
}

const TOP_248 = "OCR2A = 248; TCCR2A = _BV(WGM20); TCCR2B = _BV(WGM22) | _BV(CS21) | _BV(CS20);";

describe("in words", () => {
  it("travel past TOP is dead", async () => {
    const curve = await curveOf(
      `void show(byte v) { analogWrite(3, v); }\nvoid setup() { ${TOP_248} Serial.begin(9600); }\nvoid loop() { show(Serial.read()); delay(4); }`,
    );
    expect(curve).toMatchObject({ label: "D3", input: "value", top: 248, used: 249, steps: 249, deadHigh: 7 });
    expect(curveLine(curve)).toBe(
      "values 0..248 of 255 reach 0..100 %; 249..255 all give a constant level, above TOP one that the data sheet leaves open: 7 dead values",
    );
    expect(usedSteps(curve)).toBe("249 different duties where TOP allows 249");
  });
  it("in fast PWM it is known which level", async () => {
    const curve = await curveOf(
      "void setup() { OCR2A = 248; TCCR2A = _BV(WGM21) | _BV(WGM20); TCCR2B = _BV(WGM22) | _BV(CS21); }\nvoid loop() { analogWrite(3, analogRead(A0) / 4); delay(4); }",
    );
    expect(curveLine(curve)).toBe(
      "readings 0..992 of 1023 reach 0..100 %; 993..1023 all give constant high: 31 dead values",
    );
  });
  it("where the core leaves the timer at 255 and TOP is 1023, the duty leaps", async () => {
    const curve = await curveOf(
      "void setup() { TCCR1A = _BV(WGM11) | _BV(WGM10); TCCR1B = _BV(WGM12) | _BV(CS10); }\nvoid loop() { analogWrite(9, analogRead(A0) / 4); delay(4); }",
    );
    expect(curveLine(curve)).toBe(
      "readings 0..1023 of 1023 reach 0..100 %; from 1019 to 1020 it leaps from 24.9 % to 100 %",
    );
    expect(curve.used).toBe(256);
  });
  it("an input that is held to a range is dead outside of it", async () => {
    const curve = await curveOf(
      "void setup() { TCCR1A = _BV(COM1A1) | _BV(WGM11); TCCR1B = _BV(WGM13) | 1; ICR1 = 320; pinMode(9, OUTPUT); }\nvoid loop() { int w = analogRead(A1); w = constrain(w, 300, 700); OCR1A = map(w, 300, 700, 64, 400); delay(5); }",
    );
    expect(curveLine(curve)).toBe(
      "readings 301..605 of 1023 reach 20..100 %; 0..300 all give 20 %: 301 dead values; 606..1023 all give a constant level, above TOP one that the data sheet leaves open: 418 dead values",
    );
  });
  it("values that do not fit wrap", async () => {
    const curve = await curveOf("void setup() {}\nvoid loop() { analogWrite(3, analogRead(A0)); delay(4); }");
    expect(curveLine(curve)).toMatch(/; 768 do not fit the register and wrap, the first at 256$/);
  });
  it("an even curve needs none", async () => {
    const even = await curveOf("void setup() {}\nvoid loop() { analogWrite(9, 255 - analogRead(A0) / 4); delay(4); }");
    expect(curveLine(even)).toBeNull();
    expect(curvePlot(even)).toHaveLength(14);
    expect(curvePlot(even).at(-1)?.trim()).toBe("* pulse, # constant level");
  });
});

describe("there is none", () => {
  it.each([
    ["for a constant", "void setup() {}\nvoid loop() { analogWrite(3, 90); delay(4); }"],
    [
      "where TOP is the register written",
      "void setup() { TCCR2A = _BV(WGM20); TCCR2B = _BV(WGM22) | 2; }\nvoid loop() { OCR2A = analogRead(A0) / 4; delay(4); }",
    ],
    [
      "for two readings",
      "void setup() {}\nvoid loop() { analogWrite(3, (analogRead(A0) + analogRead(A1)) / 8); delay(4); }",
    ],
    [
      "where the reading decides whether it is written",
      "void setup() {}\nvoid loop() { int x = analogRead(A0); if (x > 100) analogWrite(3, x / 4); delay(4); }",
    ],
    [
      "where TOP changes",
      "void setup() {}\nvoid loop() { TCCR1A = _BV(WGM11); TCCR1B = _BV(WGM13) | 1; ICR1 = digitalRead(7) ? 200 : 300; analogWrite(9, analogRead(A0) / 8); delay(4); }",
    ],
    ["on a pin without a timer", "void setup() {}\nvoid loop() { analogWrite(4, analogRead(A0) / 4); delay(4); }"],
  ])("%s", async (_, sketch) => expect(await curvesOf(sketch)).toEqual([]));
});
