import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lineIndex } from "../../shared-model/text-position.js";

describe("lines and columns", () => {
  it("count from 0, in UTF-16 units", () => {
    const index = lineIndex("µ\n😀x\n");
    expect(index.positionAt(0)).toEqual({ line: 0, character: 0 });
    expect(index.positionAt(4)).toEqual({ line: 1, character: 2 });
    expect(index.positionAt(6)).toEqual({ line: 2, character: 0 });
  });
  it("end at every kind of line break, never between \\r and \\n", () => {
    const index = lineIndex("a\r\nb\rc\nd");
    expect([0, 3, 5, 7].map((offset) => index.positionAt(offset).line)).toEqual([0, 1, 2, 3]);
    expect(index.lines).toBe(4);
  });
  it("are clamped to the text", () => {
    const index = lineIndex("ab\r\ncd");
    expect(index.offsetAt({ line: 0, character: 99 })).toBe(2);
    expect(index.offsetAt({ line: 9, character: 0 })).toBe(6);
    expect(index.offsetAt({ line: -1, character: 3 })).toBe(0);
    expect(index.positionAt(99)).toEqual({ line: 1, character: 2 });
  });
  it("lead back to the offset they came from", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom("a", "\n", "\r", "é") }), fc.nat(40), (text, offset) => {
        const index = lineIndex(text);
        const clamped = Math.min(offset, text.length);
        const position = index.positionAt(clamped);
        // Inside a line break an editor has no place for the caret: such an offset goes to the line's end.
        const inBreak = text[clamped - 1] === "\r" && text[clamped] === "\n";
        expect(index.offsetAt(position)).toBe(inBreak ? clamped - 1 : clamped);
      }),
    );
  });
});
