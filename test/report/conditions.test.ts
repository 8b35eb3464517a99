/** Whole timer states apart, each with its condition in the sketch's own words, in the regime that lasts. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { RegisterValue } from "../../shared-model/register-value.js";
import { analysedText } from "../runner/analysed-sketch.js";

/** `OCR1A 999, TCCR1B 10: analogRead(A0) > 512` for each running state of a timer, sorted. */
async function running(sketch: string, timer: number, registers: readonly string[]): Promise<readonly string[]> {
  const text = readFileSync(join(__dirname, "../oracle/sketches", `${sketch}.ino`), "utf8");
  const { analysis } = await analysedText(text);
  const states = analysis.timers.find((history) => history.timer === timer)?.states ?? [];
  return states
    .filter((state) => state.regime === "running")
    .map(({ snapshot, when }) => {
      const values = registers.map((name) => `${name} ${shown(snapshot.registers[name]!)}`);
      return `${values.join(", ")}: ${when ?? "always"}`;
    })
    .sort();
}

function shown(value: RegisterValue): string {
  return value.values?.join("/") ?? `${value.min}..${value.max}`;
}

it("an input that decides", async () => {
  expect(await running("two-ranges-by-input", 1, ["OCR1A", "TCCR1B"])).toEqual([
    "OCR1A 15999, TCCR1B 9: not (analogRead(A0) > 512)",
    "OCR1A 999, TCCR1B 10: analogRead(A0) > 512",
  ]);
});

it("a variable that decides", async () => {
  expect(await running("mode-by-command", 2, ["TCCR2B"])).toEqual(["TCCR2B 3: mode == 2", "TCCR2B 4: not (mode == 2)"]);
});

it("an index of tables that decides", async () => {
  expect(await running("tables-by-one-index", 1, ["OCR1A", "TCCR1B"])).toEqual([
    "OCR1A 1000, TCCR1B 9: at == 0",
    "OCR1A 2000, TCCR1B 10: at == 1",
    "OCR1A 4000, TCCR1B 11: at == 2",
    "OCR1A 8000, TCCR1B 12: at == 3",
  ]);
});

it("a switch over a mode gives the set of prescalers, and what setup left", async () => {
  expect(await running("prescaler-by-button", 2, ["TCCR2B"])).toEqual([
    "TCCR2B 1: digitalRead(4) == LOW",
    "TCCR2B 3: digitalRead(4) == LOW",
    "TCCR2B 4: always",
    "TCCR2B 5: digitalRead(4) == LOW",
    "TCCR2B 7: digitalRead(4) == LOW",
  ]);
});

it("one input in several registers: exactly what it can give", async () => {
  const text = `
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 1023;
}
void loop() {
  int x = analogRead(A0);
  if (x > 512) OCR1A = x;
  else OCR1A = 1023 - x;
  OCR1B = (x + 1023 - x) / 4;
  OCR2A = (long)x * x / 65536;
  OCR2B = random(3) * 100;
}
`;
  const { analysis } = await analysedText(text);
  const states = analysis.timers.flatMap((history) => history.states.filter((state) => state.regime === "running"));
  const of = (name: string): string =>
    states
      .map((state) => state.snapshot.registers[name])
      .flatMap((value) => (value ? [shown(value)] : []))
      .join(" or ");
  expect(of("OCR1A")).toBe("511..1023");
  expect(of("OCR1B")).toBe("255");
  expect(of("OCR2A")).toBe("0/1/2/3/4/5/6/7/8/9/10/11/12/13/14/15");
  expect(of("OCR2B")).toBe("0/100/200");
});
