/** The way back: every token of the expanded text knows where it was written, and through which macro it came. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { SourceFile } from "../../server/preprocess/source.js";
import { expanded, rangeOf, sketch, sourceOf } from "./expand-text.js";

/** The origin of a piece of expanded text, with the source text it stands for. */
function originOf(text: string, piece: string, nth = 0) {
  const result = sketch(text);
  const { span, macro, constant } = result.map.origin(rangeOf(result, piece, nth)[0]);
  return { source: text.slice(span.start, span.end), macro, constant };
}

test("a token that was copied is itself", () => {
  const text = 'int   counter = 0x1F; // x\nchar *s = "a b";';
  expect(originOf(text, "counter")).toEqual({ source: "counter", macro: null, constant: null });
  expect(originOf(text, "0x1F").source).toBe("0x1F");
  expect(originOf(text, '"a b"').source).toBe('"a b"');
  expect(originOf("x <<= 2;", "<<=").source).toBe("<<=");
});

test("a constant knows its name", () => {
  expect(originOf("TCCR2B = 1 << CS22;", "2", 1)).toEqual({ source: "CS22", macro: "CS22", constant: "CS22" });
});

test("a constant behind a constant: the outermost macro, the innermost constant", () => {
  const text = "#define SPEED CS21\nTCCR2B = SPEED;";
  expect(originOf(text, "1")).toEqual({ source: "SPEED", macro: "SPEED", constant: "CS21" });
});

test("a body of several tokens is no constant, but the tokens in it may be", () => {
  const text = "#define START (1 << CS22)\nTCCR2B = START;";
  expect(originOf(text, "1")).toEqual({ source: "START", macro: "START", constant: null });
  expect(originOf(text, "2", 1)).toEqual({ source: "START", macro: "START", constant: "CS22" });
});

test("what an invocation adds is the whole invocation; an argument keeps its place", () => {
  const text = "TCCR2A = _BV(COM2B1) | 3;";
  expect(originOf(text, "<<")).toEqual({ source: "_BV(COM2B1)", macro: "_BV", constant: null });
  expect(originOf(text, "5")).toEqual({ source: "COM2B1", macro: "_BV", constant: "COM2B1" });
  expect(originOf("bitSet(PORTB, pin + 1);", "PORTB")).toEqual({ source: "PORTB", macro: "bitSet", constant: null });
  expect(originOf("bitSet(PORTB, pin + 1);", "pin").source).toBe("pin");
});

test("an invocation in an argument has its own place", () => {
  const text = "min(_BV(CS22), 9)";
  const result = sketch(text);
  expect(result.text).toBe("(((1 << (2)))<(9)?((1 << (2))):(9))\n");
  const { span, macro } = result.map.origin(result.text.indexOf("<<"));
  expect([text.slice(span.start, span.end), macro]).toEqual(["_BV(CS22)", "min"]);
});

test("a macro whose arguments stand behind another's expansion", () => {
  const text = "#define SET bitSet\nSET(PORTB, 3);";
  expect(originOf(text, "|=")).toEqual({ source: "SET(PORTB, 3)", macro: "SET", constant: null });
  expect(originOf(text, "3").source).toBe("3");
});

test("what was quoted or pasted comes from the invocation", () => {
  const text = "#define REG(n, l) TCCR##n##l\n#define S(x) #x\nREG(2, B) = 1; S(fan)";
  expect(originOf(text, "TCCR2B")).toEqual({ source: "REG(2, B)", macro: "REG", constant: null });
  expect(originOf(text, '"fan"').source).toBe("S(fan)");
});

test("a stretch of text maps to the smallest stretch of source", () => {
  const result = sketch("TCCR2B = _BV(CS22) | 3; x = y;");
  expect(sourceOf(result, "TCCR2B = (1 << (2)) | 3")).toBe("TCCR2B = _BV(CS22) | 3");
  expect(sourceOf(result, "(1 << (2))")).toBe("_BV(CS22)");
  expect(sourceOf(result, "(2)")).toBe("_BV(CS22)");
  expect(sourceOf(result, "x = y")).toBe("x = y");
  const limited = sketch("v = constrain(a + b, 0, top);");
  expect(sourceOf(limited, "a + b")).toBe("a + b");
  expect(sourceOf(limited, "(a + b)<(0)")).toBe("constrain(a + b, 0, top)");
});

test("comments, directives and splices between do not disturb it", () => {
  const result = sketch("int a; /* fan */ int b;\n#define N 4\nint c[N]; int d\\\n= 7;");
  expect(sourceOf(result, "b")).toBe("b");
  expect(sourceOf(result, "int c[4]")).toBe("int c[N]");
  expect(sourceOf(result, "7")).toBe("7");
});

test("text of a header maps to the header", () => {
  const headers = { "fan.h": "// the fan\nint fanSpeed;" };
  const result = sketch('int a;\n#include "fan.h"\nint b;', headers);
  const { span } = result.map.origin(rangeOf(result, "fanSpeed")[0]);
  expect(span).toEqual({ path: "fan.h", start: 15, end: 23 });
  expect(result.map.span(...rangeOf(result, "int fanSpeed"))).toEqual({ path: "fan.h", start: 11, end: 23 });
  const { path } = result.map.span(0, result.text.length);
  expect(path).toBe("greenhouse.ino");
});

test("a byte order mark and carriage returns count as they stand in the file", () => {
  const result = sketch("\ufeffint a;\r\n#define X 3 \\\r\n + 4\r\nint b = X;\r\n");
  expect(sourceOf(result, "int a;")).toBe("int a;");
  expect(sourceOf(result, "3 + 4")).toBe("X");
  expect(sourceOf(result, "b")).toBe("b");
});

test("nothing at all has an origin all the same", () => {
  const { map } = sketch("");
  expect(map.origin(0).span).toEqual({ path: "greenhouse.ino", start: 0, end: 0 });
  expect(map.span(0, 0)).toEqual({ path: "greenhouse.ino", start: 0, end: 0 });
});

test("every word of the expanded text that no macro made stands at its origin", () => {
  const piece = fc.constantFrom(
    ...["fan ", "lamp", " = ", "FAN", "SQ(fan)", "SQ(FAN + lamp)", "// x\n", "/* y */", "\n", "\\\n", "min(fan, FAN)"],
    ...["#if 1\n", "\n#endif\n", "'a'", '"FAN"', " _BV(CS22) ", "(", ")", ",", "TCCR2A|=3;"],
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 25 }), (pieces) => {
      const text = `#define FAN pump\n#define SQ(x) ((x) * (x))\n${pieces.join("")}`;
      const result = sketch(text);
      for (const { index } of result.text.matchAll(/\b(fan|lamp|TCCR2A)\b/g)) {
        const { span, constant } = result.map.origin(index);
        const source = (result.files[0] as SourceFile).text.slice(span.start, span.end);
        const word = /^\w+/.exec(result.text.slice(index))?.[0] as string;
        expect([source.replace(/\\\n/g, ""), constant]).toEqual([word, null]);
      }
      for (const { index } of result.text.matchAll(/\bpump\b/g)) {
        const { span, constant } = result.map.origin(index);
        expect([text.slice(span.start, span.end).replace(/\\\n/g, ""), constant]).toEqual(["FAN", "FAN"]);
      }
    }),
  );
});

test("a stretch inside another maps inside it", () => {
  const text = "#define SQ(x) ((x) * (x))\nint a = SQ(b + 1) + min(c, SQ(d)); // e\nTCCR2B |= _BV(CS22);\n";
  const result = sketch(text);
  const offset = fc.nat(result.text.length);
  fc.assert(
    fc.property(offset, offset, offset, offset, (p, q, r, s) => {
      const [a, b, c, d] = [p, q, r, s].sort((x, y) => x - y) as [number, number, number, number];
      const inner = result.map.span(b, Math.max(c, b + 1));
      const outer = result.map.span(a, Math.max(d, c, b + 1));
      expect(outer.start).toBeLessThanOrEqual(inner.start);
      expect(outer.end).toBeGreaterThanOrEqual(inner.end);
    }),
  );
  expect(expanded(text)).toContain("TCCR2B |=");
});
