/** Edits in memory, and the stretches of text that they and allow comments go by. */
import { describe, expect, it } from "vitest";
import { applyEdits, applyToSources, movedOffset } from "../../server/edits/apply.js";
import { endOfStatement, indentAt, lineOf, statementAfter } from "../../server/edits/source-text.js";

const span = (start: number, end: number, path = "a.ino") => ({ path, start, end });

describe("edits", () => {
  it("count in the old text, whatever their order", () => {
    const edits = [
      { span: span(6, 7), text: "33" },
      { span: span(0, 1), text: "xyz" },
    ];
    expect(applyEdits("a = b;3;", edits)).toBe("xyz = b;33;");
  });

  it("at one place keep their order", () => {
    expect(
      applyEdits("ab", [
        { span: span(1, 1), text: "1" },
        { span: span(1, 1), text: "2" },
      ]),
    ).toBe("a12b");
  });

  it("that overlap are refused", () => {
    const edits = [
      { span: span(0, 3), text: "" },
      { span: span(2, 4), text: "" },
    ];
    expect(() => applyEdits("abcdef", edits)).toThrow(RangeError);
  });

  it("move later places along", () => {
    const edits = [{ span: span(2, 4), text: "longer" }];
    expect(movedOffset(1, edits)).toBe(1);
    expect(movedOffset(4, edits)).toBe(8);
    expect(movedOffset(3, edits)).toBe(2);
  });

  it("reach tabs, units and headers, each by its path", () => {
    const file = (path: string) => ({ path, text: `// ${path}`, kind: "sketch" as const });
    const sources = { tabs: [file("a.ino")], units: [file("b.cpp")], include: (name: string) => file(name) };
    const edited = applyToSources(sources, [
      { span: span(0, 2, "b.cpp"), text: "#" },
      { span: span(0, 2, "c.h"), text: "!" },
    ]);
    expect(edited.tabs[0]?.text).toBe("// a.ino");
    expect(edited.units[0]?.text).toBe("# b.cpp");
    expect(edited.include("c.h", "b.cpp", false)?.text).toBe("! c.h");
  });
});

describe("stretches of text", () => {
  it("a statement ends at its semicolon, past brackets, strings and comments", () => {
    const text = 'call(a, ";", /* ; */ b); next();';
    expect(text.slice(0, endOfStatement(text, 0))).toBe('call(a, ";", /* ; */ b);');
  });

  it("the statement after a comment may stand lines below", () => {
    const text = "// note\n\n  // more\n  a = 1;\n  b = 2;\n";
    const found = statementAfter(text, 7);
    expect(text.slice(found.start, found.end)).toBe("a = 1;");
  });

  it("lines end before CR LF", () => {
    const text = "one\r\n\ttwo\r\n";
    expect(lineOf(text, 6)).toEqual({ start: 5, end: 9 });
    expect(indentAt(text, 7)).toBe("\t");
  });
});
