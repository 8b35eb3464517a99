/** The generator is a function of its seed; the preparation of .ino text is the build's. */
import { describe, expect, it } from "vitest";
import { generate } from "./generate.js";
import { prepareSketch } from "./prototypes.js";
import { readsInputs } from "./scenarios.js";

describe("random programs", () => {
  it("the same seed gives the same program, another seed another", () => {
    expect(generate(77)).toEqual(generate(77));
    expect(generate(77).text).not.toBe(generate(78).text);
  });

  it("cover both boards, inputs, own main, routines, tables and every timer", () => {
    const texts = Array.from({ length: 400 }, (_, seed) => generate(seed));
    const share = (pattern: RegExp): number => texts.filter(({ text }) => pattern.test(text)).length / texts.length;
    expect(texts.filter(({ board }) => board === "mega").length).toBeGreaterThan(20);
    expect(texts.filter(({ text }) => readsInputs(text)).length).toBeGreaterThan(40);
    for (const pattern of [/int main/, /ISR\(/, /class /, /struct /, /switch/, /TCCR0A/, /TCCR1A/, /TCCR2A/, /ICR1/]) {
      expect(share(pattern), String(pattern)).toBeGreaterThan(0.02);
    }
  });
});

describe("prototypes", () => {
  it("go before the first function, for free functions only", () => {
    const sketch = [
      "#define UNUSED() {",
      "struct Pair { int a; int b; };",
      "// void ghost() {",
      "void setup() { start(3); }",
      "class Lamp { void on() { } };",
      "template <typename T> T twice(T v) { return v + v; }",
      "int level(byte x = 3) { return x; }",
      "void loop() { }",
      "static unsigned long start(int pin) { return pin; }",
      "ISR(TIMER1_OVF_vect) { }",
    ].join("\n");
    const { prototypes, text } = prepareSketch(sketch, "lamp.ino");
    expect(prototypes).toEqual(["void setup();", "void loop();", "static unsigned long start(int pin);"]);
    expect(text.indexOf("void setup();")).toBeLessThan(text.indexOf("void setup() {"));
    expect(text.indexOf("void setup();")).toBeGreaterThan(text.indexOf("struct Pair"));
    expect(text).toContain('#line 4 "lamp.ino"');
  });
});

describe("inputs", () => {
  it("are told from words, not from comments or from setting a counter", () => {
    expect(readsInputs("void loop() { analogWrite(3, analogRead(0) / 4); }")).toBe(true);
    expect(readsInputs("void loop() { /* analogRead */ TCNT1 = 0; }")).toBe(false);
    expect(readsInputs("void loop() { if (TCNT1 == 0) { } }")).toBe(true);
  });
});
