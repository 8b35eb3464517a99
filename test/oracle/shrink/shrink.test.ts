/** The shrinker before a judge that fails on purpose: what is left is what the judge asks for, and no more. */
import { describe, expect, it } from "vitest";
import { generate } from "../generate.js";
import { tidied } from "./edits.js";
import { type Files, shrink } from "./shrink.js";
import { grouped, items } from "./tokens.js";

const patient = (): boolean => false;

/** Brackets pair and statements end: the least that a compiler would ask for. */
function wellFormed(text: string): boolean {
  const open: string[] = [];
  for (const char of text.replace(/"[^"\n]*"|'[^'\n]*'/g, "")) {
    if ("({[".includes(char)) open.push(char);
    else if (")}]".includes(char) && "({["[")}]".indexOf(char)] !== open.pop()) return false;
  }
  return open.length === 0;
}

async function shrunk(text: string, failing: (text: string) => boolean): Promise<string> {
  const judge = async (files: Files): Promise<boolean> => wellFormed(files["a.ino"]!) && failing(files["a.ino"]!);
  const { files, minimal } = await shrink({ "a.ino": text }, judge, patient);
  expect(minimal).toBe(true);
  return files["a.ino"]!.replace(/\s+/g, " ").replaceAll(" ;", ";").trim();
}

const LAMP = `
#include "lamp.h" // the lamp
int twice(int n) { return n + n; }
void setup() {
  pinMode(9, OUTPUT);
  for (byte i = 0; i < 4; i++) {
    if (twice(i) > 3) { TCCR1A = 0x23; OCR1A = twice(i) + 7 * (300 - i); } else { TCCR1B = 1; }
  }
}
void loop() { /* nothing; } */ delay(3); }
`;

describe("shrinking", () => {
  it("leaves one statement of a nested block", async () => {
    expect(await shrunk(LAMP, (text) => /TCCR1A = 0x23;/.test(text))).toBe("TCCR1A = 0x23;");
  });

  it("leaves one arm of a branch inside its function", async () => {
    const left = await shrunk(LAMP, (text) => /void setup\(\) \{[^}]*TCCR1B/.test(text));
    expect(left).toBe("void setup() { TCCR1B }");
  });

  it("cuts an expression down to the operand that matters", async () => {
    expect(await shrunk(LAMP, (text) => /OCR1A = [^;]*7 \*[^;]*;/.test(text))).toBe("OCR1A = 7 *;");
  });

  it("keeps what two distant places need of each other", async () => {
    const left = await shrunk(LAMP, (text) => /int twice\(int n\) \{[^}]*\}/.test(text) && /= twice\(i\)/.test(text));
    expect(left).toBe("int twice(int n) { } = twice(i)");
  });

  it("makes numbers smaller only as far as the failure lasts", async () => {
    const left = await shrunk(
      "void setup() { OCR1A = 4000; }",
      (text) => Number(/OCR1A = (\d+);/.exec(text)?.[1]) > 300,
    );
    expect(left).toBe("OCR1A = 500;");
  });

  it("drops files that are not needed", async () => {
    const files = { "candidate.ino": "void setup() { }", "fan.h": "#pragma once", "fan.cpp": "int fan = 3;" };
    const judge = async (left: Files): Promise<boolean> => left["fan.cpp"]?.includes("fan") === true;
    const result = await shrink(files, judge, patient);
    expect(Object.keys(result.files)).toEqual(["fan.cpp"]);
    expect(result.files["fan.cpp"]!.trim()).toBe("fan");
  });

  it("gives the sketch back where nothing smaller fails", async () => {
    const whole = tidied(LAMP);
    const judge = async (files: Files): Promise<boolean> => files["a.ino"] === whole;
    expect((await shrink({ "a.ino": LAMP }, judge, patient)).files["a.ino"]).toBe(whole);
  });

  it("stops when time is up, with the smallest so far", async () => {
    let asked = 0;
    const { minimal, files, tried } = await shrink(
      { "a.ino": LAMP },
      async (left) => {
        asked++;
        return left["a.ino"]!.includes("delay(3)");
      },
      () => asked > 5,
    );
    expect(minimal).toBe(false);
    expect(tried).toBeLessThan(9);
    expect(files["a.ino"]).toContain("delay(3)");
  });

  it("cuts a random program of a hundred lines to its one write", async () => {
    const program = generate(11).text;
    const write = /\bTCCR\d[AB]\b/.exec(program)![0];
    expect(await shrunk(program, (text) => text.includes(`${write} `))).toBe(write);
  });
});

describe("laying out", () => {
  it("is one statement a line and changes nothing else", () => {
    const left = tidied("void setup(){if(a){b=1;}else{b=2;}\n\n}//x\n#define A 1\nint t[2]={1,2};");
    expect(left).toBe(
      "void setup(){\n  if(a){\n    b=1;\n  }else{\n    b=2;\n  }\n}\n#define A 1\nint t[2]={\n  1,2\n};\n",
    );
  });

  it("tells statements, declarations and lines of the preprocessor apart", () => {
    const text =
      "#define A(x) { x }\nstruct P { int a; } p;\nint t[] = { 1, 2 };\nvoid f() { }\nif (a) { } else b = 1;\nx = 2;";
    expect(items(grouped(text)).map(({ from, to }) => text.slice(from, to))).toEqual([
      "#define A(x) { x }",
      "struct P { int a; } p;",
      "int t[] = { 1, 2 };",
      "void f() { }",
      "if (a) { } else b = 1;",
      "x = 2;",
    ]);
  });
});
