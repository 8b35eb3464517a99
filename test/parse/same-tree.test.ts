/** Both builds of tree-sitter give the same tree of every text without errors, and both walks the same of any. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { listMarks } from "../../server/parse/assignment-lists.js";
import { switchMarks } from "../../server/parse/bare-switches.js";
import type { Cursor } from "../../server/parse/cursor.js";
import { createTables } from "../../server/parse/grammar-tables.js";
import * as kinds from "../../server/parse/kinds.js";
import { createParser, type Parser } from "../../server/parse/parse.js";
import { withMarks } from "../../server/parse/put-in-marks.js";
import { respelled } from "../../server/parse/respell.js";
import { swiftWalk } from "../../server/parse/swift-walk.js";
import { walk } from "../../server/parse/walk.js";
import { sketch } from "../preprocess/expand-text.js";
import { expectSound } from "./trees.js";

let native: Parser;
let wasm: Parser;
beforeAll(async () => {
  native = await createParser("native");
  wasm = await createParser("wasm");
});

/** The native parser underneath, to hold one walk against the other. */
const load = createRequire(__filename);
const TreeSitter = load("tree-sitter") as new () => {
  setLanguage(language: unknown): void;
  parse(text: string): { rootNode: { hasError: boolean }; walk(): Cursor };
};
const bare = new TreeSitter();
bare.setLanguage(load("tree-sitter-cpp"));
const tables = createTables();

function expectSame(written: string): void {
  const spelled = respelled(written);
  const text = withMarks(spelled, [...listMarks(spelled), ...switchMarks(spelled)]).text;
  const ours = native.parse(text);
  const theirs = wasm.parse(text);
  // The builds carry different versions of tree-sitter's core, whose recovery from errors differs here and there.
  if (ours.errors.length === 0) expect(theirs).toEqual(ours);
  else expect(theirs.errors).not.toEqual([]);
  expectSound(ours);
  const tree = bare.parse(text);
  const slow = walk(tree.walk(), tables);
  expect(ours.root).toEqual(slow.root);
  expect(ours.errors).toEqual(slow.errors);
  // With directives the quick walk is not used.
  if (!tree.rootNode.hasError && !/^[ \t]*#/m.test(text))
    expect(swiftWalk(tree.walk(), tables, text).root).toEqual(slow.root);
}

function sketchesUnder(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (name === "node_modules") return [];
    if (statSync(path).isDirectory()) return sketchesUnder(path);
    return /\.(ino|cpp|h)$/.test(name) ? [path] : [];
  });
}

test("every sketch of this repository, as written and as expanded", () => {
  for (const path of sketchesUnder(join(__dirname, ".."))) {
    const text = readFileSync(path, "utf8");
    expectSame(text);
    expectSame(sketch(text).text);
  }
});

const CONSTRUCTS = [
  "int a;",
  "static const uint8_t table[4] PROGMEM = { 1, 2, { }, 4, };",
  "struct Fan { byte pin; unsigned int duty : 4; Fan(byte p) : pin(p), duty{3} { } ~Fan(); void set(int d = 0) const; };",
  "enum class Mode : uint8_t { Off, On = 3, };",
  "template <typename T, int N> T clamp(T v) { return v < N ? v : T(N); }",
  "class Lamp : public Light { public: virtual void on() override = 0; private: int _pin{ }; };",
  "namespace pump { int flow( ) { return ::flow; } }",
  "void f() { for (;;) ; }",
  "void f() { for (int i = 0, j; i < 10; i++, j--) { continue; } }",
  "void f() { for (auto &x : table) { } }",
  "void f() { do { } while ( 0 ) ; }",
  "void f() { if (a) ; else if (b) { } else c(); }",
  "void f() { switch (x) { case 1: ; case 2: { break; } default: ; } }",
  "void f() { label: goto label; }",
  "auto g = [&, x](int y) -> int { return x + y; };",
  "void f() { delete [] p; p = new int[3]; q = new Fan(3); }",
  "volatile uint8_t *reg = &TCCR2B; int (*fn)(int, char *) = 0;",
  "(*(volatile uint8_t *)(0xB1)) |= (1 << 2);",
  "x = sizeof(int) + sizeof x + (uint8_t) y + uint8_t(z) + static_cast<int>(w);",
  's = "a b" "c\\n" ; c = \'x\'; d = \'\\\'\'; e = L\'x\'; f = R"(a (b) c)"; g = R"x()x";',
  "x = 1'000 + 0xFFu + 0b101 + 1.5e-3f + .5 + 077 + 3_kHz;",
  "x = a ? b : c ? d : e; y = ( a, b ); z = !a && ~b || -c;",
  "x += y <<= z; a->b.c[3](4)++; --d; *p++ = &q;",
  'extern "C" { void h(void); }',
  'extern "C" void __isr_TIMER1_COMPA(void) { }',
  'void f(void) __attribute__((noinline)); int v __attribute__((section("x"))) = 3;',
  "typedef struct { int a; } Pair ; using Word = unsigned int;",
  'constexpr int top(int f) { return F / f - 1; } static_assert(top(3) == 4, "x");',
  "int &r = a; const int *const p = 0; int a[2][3] = { { 1 } };",
  'asm volatile ("nop" ::: "memory");',
  "Fan fan(9), lamp{10}; Fan pump = Fan(11);",
  "operator bool() const; Fan &operator=(const Fan &); void operator()(int);",
  "unsigned long long int big = 1ULL; long signed x; unsigned char y;",
  "friend class X; int Fan::count = 0; int Fan::get() { return this->pin; }",
  "µs = 3;",
  "aµb = $x$y + größe; Ä::ö(ü);",
  "// note\n",
  "/* note */",
  "\n",
  "\t  ",
  " ",
  "\u00a0",
];

test("every construct by itself", () => {
  for (const construct of CONSTRUCTS) expectSame(construct);
});

test("constructs put together at random, and cut off anywhere", () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...CONSTRUCTS), { maxLength: 8 }), fc.nat(400), (pieces, cut) => {
      const text = pieces.join(cut % 3 === 0 ? "\n" : " ");
      expectSame(text);
      expectSame(text.slice(0, cut));
    }),
    { numRuns: 150 },
  );
});

test("what is said of kinds is what the grammar says", () => {
  interface Kind {
    readonly type: string;
    readonly named: boolean;
    readonly fields?: Readonly<Record<string, unknown>>;
    readonly children?: unknown;
  }
  const grammar = load("tree-sitter-cpp/src/node-types.json") as readonly Kind[];
  const find = (type: string, named: boolean) => grammar.find((kind) => kind.type === type && kind.named === named);
  for (const kind of kinds.CHILDLESS) {
    expect(find(kind, true), kind).toBeDefined();
    expect(find(kind, true)?.children, kind).toBeUndefined();
  }
  for (const kind of kinds.FIELDLESS) {
    expect(find(kind, true), kind).toBeDefined();
    expect(Object.keys(find(kind, true)?.fields ?? {}), kind).toEqual([]);
  }
  for (const kind of kinds.DROPPED) expect(find(kind, kind === "comment"), kind).toBeDefined();
  for (const kind of [...kinds.WORDS, ...kinds.BRACKETED, ...kinds.SEMICOLON, ...kinds.VERBATIM]) {
    expect(find(kind, true), kind).toBeDefined();
  }
  for (const kind of kinds.WORDS) expect(kinds.CHILDLESS.has(kind), kind).toBe(true);
});
