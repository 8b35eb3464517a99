/** Comments of active text: where they are, and what they stand beside. */
import { expect, test } from "vitest";
import { sketch } from "./expand-text.js";

function commentsOf(text: string, headers: Record<string, string> = {}) {
  const result = sketch(text, headers);
  return result.comments.map(({ text: comment, trailing, at }) => [comment, trailing, result.text.slice(at, at + 5)]);
}

test("comments that stand alone and comments that end a line of code", () => {
  expect(commentsOf("// alone\nint a; // behind\n/* block */\nint b; /* last */\n")).toEqual([
    ["// alone", false, "int a"],
    ["// behind", true, "int b"],
    ["/* block */", false, "int b"],
    ["/* last */", true, ""],
  ]);
});

test("a comment in the middle of a line ends nothing", () => {
  expect(commentsOf("delay(/* ms */ 5);")).toEqual([["/* ms */", false, "5);\n"]]);
  expect(commentsOf("/* first */ int a;")).toEqual([["/* first */", false, "int a"]]);
});

test("several comments at the end of a line all end it", () => {
  expect(commentsOf("int a; /* one */ // two\n")).toEqual([
    ["/* one */", true, ""],
    ["// two", true, ""],
  ]);
  expect(commentsOf("/* one */ // two\nint a;")).toEqual([
    ["/* one */", false, "int a"],
    ["// two", false, "int a"],
  ]);
});

test("comments in skipped groups do not count; those on the lines of the conditional do", () => {
  expect(
    commentsOf("#if 0 // off\n// wants D9: 1 kHz\n#else // on\n// wants D9: 2 kHz\n#endif // end\nint a;"),
  ).toEqual([
    ["// off", true, "int a"],
    ["// on", true, "int a"],
    ["// wants D9: 2 kHz", false, "int a"],
    ["// end", true, "int a"],
  ]);
});

test("comments on lines of definitions and includes", () => {
  expect(
    commentsOf('#define FAN 9 // wants FAN: 25 kHz\n#include "fan.h" // the fan\nint a;', { "fan.h": "" }),
  ).toEqual([
    ["// wants FAN: 25 kHz", true, "int a"],
    ["// the fan", true, "int a"],
  ]);
});

test("comments among a macro's arguments", () => {
  expect(commentsOf("x = min(1, // first\n  2 /* second */);")).toEqual([
    ["// first", true, "((1)<"],
    ["/* second */", false, "((1)<"],
  ]);
});

test("comments among the arguments of an invocation that comes to nothing are told once", () => {
  expect(commentsOf("min(1, // first\n 2")).toEqual([["// first", true, "2\n"]]);
  expect(commentsOf("min // name\n; /* x */")).toEqual([
    ["// name", true, "; \n"],
    ["/* x */", true, ""],
  ]);
});

test("what looks like a comment in a literal is none", () => {
  expect(commentsOf('s = "// no"; c = \'/*\'; t = R"(/* no */)"; // yes')).toEqual([["// yes", true, ""]]);
});

test("a spliced line comment goes on; a block that is not closed goes to the end", () => {
  expect(commentsOf("// a \\\n b\nint c;")).toEqual([["// a \\\n b", false, "int c"]]);
  expect(commentsOf("int c; /* open\nint d;")).toEqual([["/* open\nint d;", true, ""]]);
});

test("comments of the sketch's headers count, those of libraries do not", () => {
  const headers = { "fan.h": "// ours\nint a;", "lib/pump.h": "// theirs\nint b;" };
  expect(commentsOf('#include "fan.h"\n#include <pump.h>\n', headers)).toEqual([["// ours", false, "int a"]]);
});

test("a header read twice tells its comments once", () => {
  expect(commentsOf('#include "fan.h"\n#include "fan.h"\n', { "fan.h": "// ours\nint a;" })).toEqual([
    ["// ours", false, "int a"],
  ]);
});

test("the span is that of the comment, without the carriage return", () => {
  const result = sketch("int a; // x\r\nint b;\r\n");
  expect(result.comments[0]?.text).toBe("// x");
  expect(result.comments[0]?.span).toEqual({ path: "greenhouse.ino", start: 7, end: 11 });
});
