/** Whole statements of plain text: which stretch is one, and what goes with it. */
import { describe, expect, it } from "vitest";
import { bodyOf, codeOnly, inOneBlock, plainStatement, removalOf } from "../../server/edits/statements.js";

/** The statement in which `word` stands, as text; null where it is none by itself. */
function statement(text: string, word: string): string | null {
  const start = text.indexOf(word);
  const found = plainStatement(text, { start, end: start + word.length });
  return found === null ? null : text.slice(found.start, found.end);
}

function without(text: string, word: string): string {
  const start = text.indexOf(word);
  const { start: from, end } = removalOf(text, plainStatement(text, { start, end: start + word.length })!);
  return text.slice(0, from) + text.slice(end);
}

describe("a plain statement", () => {
  it("is whole, with its mark", () => {
    expect(statement("{ a = 1; b = 2 ; }", "b = 2")).toBe("b = 2 ;");
    expect(statement("{\n  a = 1; // first; then\n  b = 2;\n}", "b = 2")).toBe("b = 2;");
    expect(statement("void f()\n#if X\n{ a = 1; }", "a = 1")).toBe("a = 1;");
  });

  it("is not what hangs on something else", () => {
    expect(statement("{ if (x) a = 1; }", "a = 1")).toBeNull();
    expect(statement("{ if (x) b(); else a = 1; }", "a = 1")).toBeNull();
    expect(statement("{ for (i = 0; a = 1; i++) ; }", "a = 1")).toBeNull();
    expect(statement("{ for (a = 1; i < 3; i++) ; }", "a = 1")).toBeNull();
    expect(statement("switch (x) { case 1: a = 1; }", "a = 1")).toBeNull();
    expect(statement("{ x = a = 1; }", "a = 1")).toBeNull();
    expect(statement("#define SET a = 1;\n{ SET }", "a = 1")).toBeNull();
    expect(statement("{ f(b, a = 1); }", "a = 1")).toBeNull();
  });
});

describe("what goes with a statement", () => {
  it("is its line, comment and break included", () => {
    expect(without("{\n  a = 1;  // one\n  b = 2;\n}\n", "a = 1")).toBe("{\n  b = 2;\n}\n");
    expect(without("{\r\n  a = 1;\r\n  b = 2;\r\n}\r\n", "a = 1")).toBe("{\r\n  b = 2;\r\n}\r\n");
    expect(without("{\n  a =\n    1;\n  b = 2;\n}\n", "a =\n    1")).toBe("{\n  b = 2;\n}\n");
  });

  it("is nothing else where other code stands beside it", () => {
    expect(without("{ a = 1; b = 2; }", "a = 1")).toBe("{ b = 2; }");
    expect(without("{ a = 1; b = 2; }", "b = 2")).toBe("{ a = 1; }");
  });
});

describe("code alone", () => {
  it("keeps its length", () => {
    const text = 'a; // "x"\n/* b\n*/ c = "; //"; \'{\'\n#define X \\\n  d\ne;\r\n';
    expect(codeOnly(text)).toHaveLength(text.length);
    expect(codeOnly(text).replace(/\s+/g, " ").trim()).toBe("a; c = ; e;");
  });

  it("tells blocks and bodies", () => {
    const text = "void f() { a; } // main() {\nint main(void) { b; { c; } d; }";
    expect(inOneBlock(text, text.indexOf("b;"), text.indexOf("d;"))).toBe(true);
    expect(inOneBlock(text, text.indexOf("b;"), text.indexOf("c;"))).toBe(false);
    expect(inOneBlock(text, text.indexOf("a;"), text.indexOf("b;"))).toBe(false);
    expect(text.slice(bodyOf(text, "main")!)).toBe(" b; { c; } d; }");
    expect(bodyOf(text, "setup")).toBeNull();
    expect(bodyOf("void setup(); void loop() {}", "setup")).toBeNull();
  });
});
