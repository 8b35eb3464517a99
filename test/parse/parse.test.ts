/** What the parser gives, whichever build of tree-sitter is behind it. */
import { beforeAll, describe, expect, test } from "vitest";
import { createParser, type Parser } from "../../server/parse/parse.js";
import { child, childrenOf, ofKind, type SyntaxNode } from "../../server/parse/syntax.js";
import { expectSound, outline } from "./trees.js";

test("the build asked for is the build given", async () => {
  expect((await createParser("native")).kind).toBe("native");
  expect((await createParser("wasm")).kind).toBe("wasm");
  expect(["native", "wasm"]).toContain((await createParser()).kind);
});

test("a parser whose files are not found says so", async () => {
  await expect(createParser("wasm", { directories: ["/"] })).rejects.toThrow(/was not found/);
  await expect(createParser("native", { directories: ["/"] })).rejects.toThrow(/does not load/);
});

describe.each(["native", "wasm"] as const)("%s", (build) => {
  let parser: Parser;
  beforeAll(async () => {
    parser = await createParser(build);
  });

  test("a register write", () => {
    const tree = parser.parse("void setup() { TCCR2B |= (1 << 2); }");
    expect(outline(tree)).toBe(
      "function_definition(type: primitive_type void, declarator: function_declarator(declarator: identifier setup, " +
        "parameters: parameter_list ()), body: compound_statement(expression_statement(assignment_expression(" +
        "left: identifier TCCR2B, operator: '|=', right: parenthesized_expression(binary_expression(" +
        "left: number_literal 1, operator: '<<', right: number_literal 2))))))",
    );
    expect(tree.errors).toEqual([]);
    expect(tree.refused).toBeNull();
    expectSound(tree);
  });

  test("children can be asked for by field and by kind", () => {
    const definition = parser.parse("int speed(int a, byte b) { return a; }").root.children[0] as SyntaxNode;
    expect(child(definition, "type")?.kind).toBe("primitive_type");
    expect(child(definition, "nothing")).toBeUndefined();
    const declarator = child(definition, "declarator") as SyntaxNode;
    expect(ofKind(declarator, "parameter_list")?.children).toHaveLength(2);
    const two = parser.parse("int a, b;").root.children[0] as SyntaxNode;
    expect(childrenOf(two, "declarator")).toHaveLength(2);
  });

  test("offsets count UTF-16 units", () => {
    const tree = parser.parse('const char *unit = "µs 🌡"; int after;');
    const last = tree.root.children[1] as SyntaxNode;
    expect(tree.text.slice(last.start, last.end)).toBe("int after;");
    expectSound(tree);
  });

  test("strings: blank space inside counts", () => {
    expect(outline(parser.parse('s = "  a\\n ";'))).toBe(
      "expression_statement(assignment_expression(left: identifier s, operator: '=', " +
        "right: string_literal(string_content   a, escape_sequence \\n, string_content)))",
    );
  });

  test("an empty statement is kept, its semicolon is not", () => {
    expect(outline(parser.parse("void f() { while (x); ; }"))).toContain(
      "while_statement('while', condition: condition_clause(value: identifier x), body: expression_statement ;), expression_statement ;",
    );
  });

  test("an attribute in the place of a statement is an empty statement", () => {
    const text = "void f() { switch (x) { case 1: a(); __attribute__ ((fallthrough)); case 2: b(); } }";
    const tree = parser.parse(text);
    expect(tree.errors).toEqual([]);
    expect(tree.text).toHaveLength(text.length);
  });

  test("comments are not kept", () => {
    expect(outline(parser.parse("int /* a */ b /* c */ ; // d\nint e;"))).toBe(
      "declaration(type: primitive_type int, declarator: identifier b)\n" +
        "declaration(type: primitive_type int, declarator: identifier e)",
    );
  });

  test("half-typed: what is missing and what is not understood are told, the rest is there", () => {
    const missing = parser.parse("void setup() { int a = 3 }\nvoid loop() {}");
    expect(missing.errors).toEqual([{ start: 24, end: 24, missing: ";" }]);
    expect(missing.root.children).toHaveLength(2);
    const wrong = parser.parse("void setup() { OCR2B = = 3; }\nvoid loop() {}");
    expect(wrong.errors.length).toBeGreaterThan(0);
    for (const { start, end } of wrong.errors) expect(wrong.text.slice(start, end)).not.toContain("loop");
    expect(wrong.root.children.at(-1)?.kind).toBe("function_definition");
    expectSound(missing);
    expectSound(wrong);
  });

  test.each(["", " ", "\n\n", ";", "}", "(", "#", "\0", "/* open", '"open', "int", "\ufeff"])(
    "%j is answered",
    (text) => {
      const tree = parser.parse(text);
      expect(tree.root.kind).toMatch(/translation_unit|ERROR/);
      expectSound(tree);
    },
  );

  test("brackets nested too deep are refused before parsing", () => {
    const started = performance.now();
    const tree = parser.parse("(".repeat(200_000));
    expect(tree.refused).toBe("brackets are nested more than 1000 deep");
    expect(tree.root.children).toEqual([]);
    expect(performance.now() - started).toBeLessThan(500);
    expect(parser.parse(`int a = ${"(".repeat(900)}1${")".repeat(900)};`).refused).toBeNull();
    // Brackets in literals and closed ones do not count.
    expect(parser.parse(`s = "${"(".repeat(2000)}"; t = ${"f(1)+".repeat(2000)}1;`).refused).toBeNull();
  });

  test("a chain of operators as deep as a later stage's stack is refused", () => {
    expect(parser.parse(`x = ${"a + ".repeat(3000)}a;`).refused).toBeNull();
    expect(parser.parse(`x = ${"a + ".repeat(10_000)}a;`).refused).toBe(
      "expressions or statements are nested more than 4000 deep",
    );
    expect(parser.parse(`x = ${"a = ".repeat(10_000)};`).refused).not.toBeNull();
    expect(parser.parse("int a;").refused).toBeNull();
  });

  test("a text that is too long is refused", () => {
    expect(parser.parse(" ".repeat(4 * 1024 * 1024 + 1)).refused).toBe(
      "the program's text is longer than 4194304 characters",
    );
  });

  test("a line of a megabyte", () => {
    const tree = parser.parse(`byte t[] = {${"1, ".repeat(350_000)}2};`);
    expect(tree.refused).toBeNull();
    const list = child(tree.root.children[0]?.children[1] as SyntaxNode, "value") as SyntaxNode;
    expect(list.children).toHaveLength(350_001);
  });
});

test("a parse that takes too long is given up, and the parser goes on working", async () => {
  for (const build of ["native", "wasm"] as const) {
    const parser = await createParser(build, { milliseconds: 1 });
    const tree = parser.parse("int a = f(x) + g(y);\n".repeat(100_000));
    expect(tree.refused).toBe("parsing took longer than 1 ms");
    expect(parser.parse("int a;").root.children).toHaveLength(1);
  }
});
