/** Sketches as they should not be, for both doors. Each is a folder's files; `main` is the one that is opened or named. */

export interface BadSketch {
  readonly name: string;
  readonly main: string;
  readonly files: Readonly<Record<string, string | Uint8Array>>;
  /** What the command line answers: 2 where the file cannot be read at all. */
  readonly status: readonly number[];
}

const LOOP = "void setup() { pinMode(3, OUTPUT); TCCR2B = 3; }\nvoid loop() { analogWrite(3, 90); delay(5); }\n";
const REPORTED = [0, 1];

function sketch(
  name: string,
  text: string | Uint8Array,
  status: readonly number[] = REPORTED,
  more: Record<string, string> = {},
): BadSketch {
  return { name, main: "bad/bad.ino", files: { "bad/bad.ino": text, ...more }, status };
}

function utf16(text: string): Uint8Array {
  return new Uint8Array(Buffer.from(`\uFEFF${text}`, "utf16le"));
}

export const badSketches: readonly BadSketch[] = [
  sketch("an empty file", ""),
  sketch("half-typed code", `${LOOP}void more() { OCR2B = (`),
  sketch("a brace too few", LOOP.replace("}\n", "\n")),
  sketch("braces too many", `${LOOP}}}}}`),
  sketch("200,000 open parentheses", `${LOOP}int x = ${"(".repeat(200_000)}`),
  sketch("200,000 open braces", `${LOOP}void f() ${"{".repeat(200_000)}`),
  sketch("a chain of 50,000 operators", `${LOOP}int x = 1${" + 1".repeat(50_000)};`),
  sketch("a line of 1 MB", `${LOOP}// ${"x".repeat(1_000_000)}\n`),
  sketch("a statement of 1 MB", `${LOOP}int t[] = {${"1,".repeat(500_000)}};\n`),
  sketch(
    "a binary file",
    Uint8Array.from({ length: 4_096 }, (_, at) => (at * 7) % 256),
    [2],
  ),
  sketch("a file of zeros", new Uint8Array(4_096), [2]),
  sketch("UTF-16", utf16(LOOP)),
  sketch("bytes that are no UTF-8", Uint8Array.from([...Buffer.from(LOOP), 0x2f, 0x2f, 0xb5, 0xff, 0xfe, 0x0a])),
  sketch("CRLF", LOOP.replaceAll("\n", "\r\n")),
  sketch("lone CR", LOOP.replaceAll("\n", "\r")),
  sketch("a missing include", `#include "nowhere.h"\n#include <Nothing.h>\n${LOOP}`),
  sketch("an include of itself", `#include "bad.ino"\n${LOOP}`),
  sketch("includes in a circle", `#include "a.h"\n${LOOP}`, REPORTED, {
    "bad/a.h": '#include "b.h"\n',
    "bad/b.h": '#include "a.h"\n',
  }),
  sketch("an include of a folder", '#include "."\n#include ""\n#include <>\n#include\n', REPORTED),
  sketch("a macro of itself", `#define A B\n#define B A\nint x = A;\n${LOOP}`),
  sketch(
    "a macro that doubles forty times",
    `${Array.from({ length: 40 }, (_, at) => `#define M${at + 1} M${at} M${at}`).join("\n")}\n#define M0 1\nint x[] = { M40 };\n${LOOP}`,
  ),
  sketch("conditionals that never end", `#if 1\n#ifdef X\n${LOOP}`),
  sketch("conditionals that never began", `#endif\n#else\n#elif 1\n${LOOP}`),
  sketch(
    "division by zero",
    `${LOOP}int x = 1 / 0;\n#if 1 / 0\n#endif\nvoid f() { int y = 0; OCR2B = 4 / y; OCR2A = 4 % (y * 0); }\n`,
  ),
  sketch(
    "recursion without end",
    `int f(int x) { return f(x + 1); }\nvoid setup() { OCR2B = f(1); }\nvoid loop() {}\n`,
  ),
  sketch("loops without end", `void setup() { for (;;) { OCR2B++; } }\nvoid loop() { while (1) {} }\n`),
  sketch("strings and comments that never end", `${LOOP}char *s = "open\n/* never`),
  sketch("an unread want", `// wants D3 1 kHz please\n// wants D99: 1 kHz\n// for pulsewright: nonsense\n${LOOP}`),
  sketch("an unknown board", `// for pulsewright: board teapot\n${LOOP}`, [2]),
  sketch("no functions at all", "int x;"),
  sketch("two setups", `${LOOP}void setup() {}\n`),
];
