/** Whatever is typed: an answer in bounded time, never an exception. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { PREPROCESS_LIMITS } from "../../server/preprocess/preprocess.js";
import { reasons, sketch, tokens } from "./expand-text.js";

/** Runs and gives the milliseconds; the bounds below are wide enough for a slow machine, and far below a hang. */
function timed<T>(work: () => T): { result: T; milliseconds: number } {
  const started = performance.now();
  const result = work();
  return { result, milliseconds: performance.now() - started };
}

test("a file that is not text is a gap", () => {
  const result = sketch("\u0000\u0001ELF\u0000");
  expect(reasons(result)).toEqual(["this file is not text"]);
  expect(result.text.trim()).toBe("");
});

test("a line of a megabyte", () => {
  const { result, milliseconds } = timed(() => sketch(`int a = ${"1 + ".repeat(250_000)}1;`));
  expect(result.text.length).toBeGreaterThan(1_000_000);
  expect(milliseconds).toBeLessThan(2000);
});

test.each([
  ["parentheses", "("],
  ["invocations that are not closed", "min("],
  ["invocations of two arguments that are not closed", "min(1, "],
  ["quotes", '"'],
  ["block comments", "/*"],
  ["conditionals", "#if 1\n"],
  ["conditions", "#if 0\n"],
  ["hashes", "#"],
  ["splices", "a\\\n"],
  ["raw strings", 'R"('],
  ["line comments", "//\\\n"],
  ["definitions", "#define A A\nA\n"],
])("200,000 characters of %s", (_, piece) => {
  const { milliseconds } = timed(() => sketch(piece.repeat(200_000 / piece.length)));
  expect(milliseconds).toBeLessThan(5000);
});

test("parentheses in a condition", () => {
  expect(reasons(sketch(`#if ${"(".repeat(200_000)}\n#endif`))).toEqual([
    "a condition is nested too deep; taken as false",
  ]);
  expect(reasons(sketch(`#if ${"!".repeat(100_000)}1\n#endif`))).toEqual([
    "a condition is nested too deep; taken as false",
  ]);
});

test("arguments nested beyond the limit are left as they are", () => {
  const result = sketch(`${"max(1, ".repeat(300)}2${")".repeat(300)}`);
  expect(reasons(result)[0]).toBe("macro 'max' is not expanded: it grows past the limit");
  expect(tokens(result.text)).toContain("max ( 1 ,");
});

test("a macro that doubles itself is given up", () => {
  const lines = ["#define A0_ x x"];
  for (let index = 1; index < 60; index++) lines.push(`#define A${index}_ A${index - 1}_ A${index - 1}_`);
  const { result, milliseconds } = timed(() => sketch(`${lines.join("\n")}\nA59_; after;`));
  expect(reasons(result)).toEqual(["macro 'A59_' is not expanded: it grows past the limit"]);
  expect(tokens(result.text)).toBe("A59_ ; after ;");
  expect(milliseconds).toBeLessThan(2000);
  const doubled = `#define D(x) x x\n${"D(".repeat(30)}1${")".repeat(30)}`;
  expect(reasons(sketch(doubled))[0]).toBe("macro 'D' is not expanded: it grows past the limit");
});

test("many invocations, each just below the limit, are stopped by the length of the text", () => {
  const limits = { ...PREPROCESS_LIMITS, maxText: 200_000 };
  const body = "wide ".repeat(10_000);
  const { result, milliseconds } = timed(() => sketch(`#define W ${body}\n${"W ".repeat(1000)}`, {}, { limits }));
  expect(reasons(result)).toEqual(["the program's text grows past 200000 characters; the rest was not read"]);
  expect(milliseconds).toBeLessThan(2000);
});

test("a bomb in a condition is a gap", () => {
  const lines = ["#define A0_ 1 + 1"];
  for (let index = 1; index < 60; index++) lines.push(`#define A${index}_ A${index - 1}_ + A${index - 1}_`);
  expect(reasons(sketch(`${lines.join("\n")}\n#if A59_\n#endif`))).toEqual([
    "the macros of a condition expand to too much; taken as false",
  ]);
});

test("bytes at random", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 400 }), (text) => {
      expect(typeof sketch(text).text).toBe("string");
    }),
  );
});

test("pieces of directives at random: total, and the same answer twice", () => {
  const piece = fc.constantFrom(
    ...["#", "##", "define", "undef", "if", "ifdef", "else", "elif", "endif", "include", "line", "defined", "\\\n"],
    ...[
      "\n",
      " ",
      "(",
      ")",
      ",",
      "...",
      "A",
      "B",
      "F",
      "min",
      "__VA_ARGS__",
      '"',
      "'",
      "/*",
      "*/",
      "//",
      "1",
      "<",
      ">",
    ],
    ...[
      "\r\n",
      'R"(',
      "ISR",
      "TIMER1_COMPA_vect",
      "__LINE__",
      "_Pragma",
      "__has_include",
      "\ufeff",
      "µ",
      "#define F(x) ",
    ],
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 60 }), (pieces) => {
      const text = pieces.join("");
      const first = sketch(text);
      const second = sketch(text);
      expect(second.text).toBe(first.text);
      expect(second.gaps).toEqual(first.gaps);
      for (let offset = 0; offset < first.text.length; offset++) {
        const { span } = first.map.origin(offset);
        expect(span.start).toBeLessThanOrEqual(span.end);
        expect(span.end).toBeLessThanOrEqual(text.length);
      }
      for (const { span } of first.comments) expect(text.slice(span.start, span.start + 1)).toBe("/");
    }),
    { numRuns: 500 },
  );
});
