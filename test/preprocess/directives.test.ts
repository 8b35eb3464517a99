/** Conditionals, includes, and what becomes a gap. */
import { expect, test } from "vitest";
import { PREPROCESS_LIMITS } from "../../server/preprocess/preprocess.js";
import { expanded, plain, project, reasons, sketch, tokens } from "./expand-text.js";

test("a header beside the sketch is read in place", () => {
  expect(expanded('a\n#include "pump.h"\nPUMP', { "pump.h": "#define PUMP 6\nint inPump;" })).toBe("a int inPump ; 6");
});

test("a quoted include finds the sketch's file first, an angled one the library's", () => {
  const headers = { "fan.h": "own", "lib/fan.h": "library" };
  expect(expanded('#include "fan.h"\n#include <fan.h>', headers)).toBe("own library");
});

test("a sketch's own header may have the name of a known one", () => {
  expect(expanded('#include "Servo.h"', { "Servo.h": "own" })).toBe("own");
  expect(expanded("#include <Servo.h>", { "lib/Servo.h": "library" })).toBe("library");
  // The core's headers are never looked for in a library folder.
  expect(expanded("#include <Arduino.h>\nHIGH", { "lib/Arduino.h": "library" })).toBe("0x1");
});

test("an include's name may come out of a macro", () => {
  const headers = { "fan.h": "own", "lib/pump.h": "library" };
  expect(expanded('#define A "fan.h"\n#include A\n#define B <pump.h>\n#include B', headers)).toBe("own library");
});

test("guards and #pragma once keep a header from being read twice", () => {
  const headers = { "a.h": "#ifndef A_H\n#define A_H\nguarded\n#endif", "b.h": "#pragma once\nonce" };
  expect(expanded('#include "a.h"\n#include "a.h"\n#include "b.h"\n#include "b.h"', headers)).toBe("guarded once");
});

test("whether a header exists can be asked", () => {
  const text = `#if __has_include("fan.h") && __has_include(<avr/io.h>) && !__has_include(<nope.h>)
yes
#endif
#ifdef __has_include
yes
#endif`;
  expect(expanded(text, { "fan.h": "" })).toBe("yes yes");
});

test("a missing header is a gap that names it, and reading goes on", () => {
  const result = sketch('#include "nowhere.h"\nint after;');
  expect(reasons(result)).toEqual(["include file 'nowhere.h' was not found"]);
  expect(result.gaps[0]?.span).toEqual({ path: "greenhouse.ino", start: 0, end: 20 });
  expect(tokens(result.text)).toBe("int after ;");
});

test("a missing header in a skipped group is none", () => {
  expect(expanded('#if 0\n#include "nowhere.h"\n#endif\nx')).toBe("x");
});

test("#error in active text is a gap with its words", () => {
  expect(reasons(sketch("#ifndef ESP32\n#error needs another chip\n#endif"))).toEqual(["#error needs another chip"]);
  expect(reasons(sketch("#warning look here\n#pragma GCC optimize"))).toEqual([]);
});

test.each([
  ["#if 1\nx", "an #if is not closed by #endif in its file"],
  ["#if 0\nx", "an #if is not closed by #endif in its file"],
  ["#endif", "#endif without #if"],
  ["#else", "#else without #if"],
  ["#elif 1", "#elif without #if"],
  ["#if 0\n#else\n#else\n#endif", "#else after #else"],
  ["#if\n#endif", "a condition is missing; taken as false"],
  ["#if 1 +\n#endif", "a condition ends too early; taken as false"],
  ["#if 1 / 0\n#endif", "a condition divides by zero; taken as false"],
  ["#if 1.5\n#endif", "'1.5' is no integer; taken as false"],
  ["#if (1\n#endif", "')' is missing in a condition; taken as false"],
  ["#if 1 2\n#endif", "'2' is not expected; taken as false"],
  ["#if X = 1\n#endif", "'=' is not expected; taken as false"],
  ["#ifdef\n#endif", "#ifdef or #ifndef without a name"],
  ["#define", "#define without a name"],
  ["#define 3 4", "#define of '3', which is no name"],
  ["#define F(a,a) a", "two parameters of a macro are called 'a'"],
  ["#define F(a b) a", "the parameter list of a macro cannot be read"],
  ["#define F(a) #b", "'#' in a macro's body is not followed by a parameter"],
  ["#define A ## b", "'##' stands at an end of a macro's body"],
  ["#include", "#include without a file's name"],
  ["#include <half\nx", "#include without a file's name"],
  ["#wibble", "unknown directive #wibble"],
  ["#define F(a) a\nF(1, 2)", "macro 'F' is not expanded: the number of arguments does not fit"],
  ["#define F(a) a\nF(1", "macro 'F' is not expanded: its closing parenthesis is missing"],
  ["#define J(a, b) a ## b\nJ(+, 3)", "'+' and '3' cannot be pasted to one token"],
])("%j is a gap", (text, reason) => {
  expect(reasons(sketch(text))).toEqual([reason]);
});

test("half-typed: an invocation that is not closed costs only itself", () => {
  const result = sketch("void setup() {\n  OCR2B = min(255, x;\n  TCCR2B = 1 << CS22;\n}\n");
  expect(tokens(result.text)).toBe("void setup ( ) { OCR2B = min ( 255 , x ; TCCR2B = 1 << 2 ; }");
  expect(result.gaps).toHaveLength(1);
});

test("half-typed: a wrong number of arguments leaves the call as it is", () => {
  expect(tokens(sketch("x = max(CS22); y = CS21;").text)).toBe("x = max ( 2 ) ; y = 1 ;");
});

test("half-typed: conditionals among arguments that go on to the end are read once", () => {
  const result = sketch("min(1,\n#if 1\na\n#else\nb\n#endif\nc");
  expect(tokens(result.text)).toBe("min ( 1 , a c");
  expect(reasons(result)).toEqual(["macro 'min' is not expanded: its closing parenthesis is missing"]);
});

test("tabs are one unit, in order; macros carry over and do not leak into the files beside them", () => {
  const result = project({
    tabs: { "greenhouse.ino": "#define FAN 9\nint a = FAN;", "lamp.ino": "int b = FAN;" },
    units: { "pump.cpp": "int c = FAN;", "valve.c": "int d = FAN;" },
  });
  expect(tokens(result.text)).toBe("int a = 9 ; int b = 9 ; int c = FAN ; int d = FAN ;");
  expect(result.units.map(({ path, c, core }) => [path, c, core])).toEqual([
    ["greenhouse.ino", false, true],
    ["pump.cpp", false, false],
    ["valve.c", true, false],
  ]);
  expect(result.units.map(({ start, end }) => tokens(result.text.slice(start, end)))).toEqual([
    "int a = 9 ; int b = 9 ;",
    "int c = FAN ;",
    "int d = FAN ;",
  ]);
  expect(result.files.map(({ path }) => path)).toEqual(["greenhouse.ino", "lamp.ino", "pump.cpp", "valve.c"]);
});

test("a header of two units is in both", () => {
  const result = project({
    tabs: { "a.ino": '#include "shared.h"' },
    units: { "b.cpp": '#include "shared.h"' },
    headers: { "shared.h": "#pragma once\nint shared; // once" },
  });
  expect(tokens(result.text)).toBe("int shared ; int shared ;");
  expect(result.files.map(({ path }) => path)).toEqual(["a.ino", "shared.h", "b.cpp"]);
});

test("the name and the line of a file", () => {
  expect(expanded('#include "fan.h"\n__LINE__ __FILE__', { "fan.h": "\n__LINE__ __FILE__ __INCLUDE_LEVEL__" })).toBe(
    '2 "fan.h" 1 2 "greenhouse.ino"',
  );
});

test("a header that includes itself stops at the limit", () => {
  const result = plain('#include "twice.h"', { "twice.h": 'x\n#include "twice.h"\n#include "twice.h"\n' });
  expect(reasons(result)).toEqual(["includes are nested more than 200 deep"]);
  expect(result.text.length).toBeLessThan(2000);
});

test("a text past the limit is cut off, with a gap", () => {
  const limits = { ...PREPROCESS_LIMITS, maxText: 1000 };
  const result = sketch("int a; // x\n".repeat(250), {}, { limits });
  expect(reasons(result)).toEqual(["the program's text grows past 1000 characters; the rest was not read"]);
  expect(result.gaps[0]?.span).toBeNull();
});

test("work can be called off", () => {
  const stop = () => {
    throw new Error("called off");
  };
  expect(() => sketch("x", {}, { stop })).toThrow("called off");
});

test("being called off in the middle of an expansion leaves no macro busy", () => {
  let asked = 0;
  const stop = () => {
    if (++asked > 2) throw new Error("called off");
  };
  expect(() => sketch("min(max(1, 2), 3); max(min(1, 2), 3); min(1, 2);", {}, { stop })).toThrow("called off");
  expect(expanded("min(1, 2)")).toBe("( ( 1 ) < ( 2 ) ? ( 1 ) : ( 2 ) )");
});
