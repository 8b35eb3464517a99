/**
 * The language as sketches use it: each snippet leaves numbers in OCR2A and OCR2B, which say whether it was understood.
 * The same constructs are compiled and simulated in test/oracle/sketches; here stand the smallest forms.
 */
import { describe, expect, it } from "vitest";
import { analysedText } from "../runner/analysed-sketch.js";

/** What the last write to each of the two registers left, and the reasons of all gaps. */
async function outcome(text: string): Promise<{ a: number | null; b: number | null; gaps: string[] }> {
  const { analysis } = await analysedText(`${text}\nvoid loop() {}\n`);
  const last = (register: string): number | null => {
    const after = analysis.writes.filter((write) => write.register === register).at(-1)?.after;
    return after?.values?.length === 1 ? after.values[0]! : null;
  };
  return { a: last("OCR2A"), b: last("OCR2B"), gaps: analysis.gaps.map(({ reason }) => reason) };
}

const SNIPPETS: Readonly<Record<string, readonly [string, number, number]>> = {
  "the core's short names of unsigned types": [
    `u8 duty = 250; u16 sum = 300;
     void setup() { u32 far = 70000; duty += 10; OCR2A = duty; OCR2B = (far + sum) / 1000; }`,
    4,
    70,
  ],
  "attributes between declarator and value": [
    `const uint8_t table[2] __attribute__((progmem)) = { 5, 6 };
     [[gnu::noinline]] uint8_t first() { return pgm_read_byte(table); }
     void setup() { OCR2A = first(); OCR2B = pgm_read_byte(&table[1]); }`,
    5,
    6,
  ],
  "ranges of case labels": [
    `uint8_t f(int v) { switch (v) { case 0 ... 9: return 1; case 10 ... 500: return 2; default: return 3; } }
     void setup() { OCR2A = f(10); OCR2B = f(900); }`,
    2,
    3,
  ],
  "a choice of two places that is assigned": [
    `void setup() { uint8_t on = 1; (on ? OCR2A : OCR2B) = 7; (on ? OCR2B : OCR2A) = 8; }`,
    7,
    8,
  ],
  "a block with a value": [`void setup() { OCR2A = ({ uint8_t x = 3; x * 2; }); OCR2B = 1; }`, 6, 1],
  "names of namespaces brought in": [
    `namespace a { namespace b { const uint8_t one = 1; } uint8_t two() { return 2; } }
     namespace c = a::b; using a::two;
     void setup() { OCR2A = c::one; OCR2B = two(); }`,
    1,
    2,
  ],
  "members declared together, each with a value": [
    `struct S { static const uint8_t x = 4, y = 9; uint8_t p = 1, q = 2; }; S s;
     void setup() { OCR2A = S::y; OCR2B = s.q; }`,
    9,
    2,
  ],
  "pointers to members": [
    `struct S { uint8_t a, b; uint8_t f(uint8_t x) { return a + x; } uint8_t g(uint8_t x) { return b + x; } };
     S s = { 1, 2 }; uint8_t (S::*table[])(uint8_t) = { &S::f, &S::g };
     void setup() { uint8_t S::*p = &S::b; s.*p = 9; S *q = &s; OCR2A = (q->*table[1])(4); OCR2B = (s.*(&S::f))(7); }`,
    13,
    8,
  ],
  "a pointer to a virtual method": [
    `struct A { virtual uint8_t f() { return 1; } }; struct B : A { uint8_t f() override { return 2; } };
     A a; B b; uint8_t call(A &o, uint8_t (A::*p)()) { return (o.*p)(); }
     void setup() { OCR2A = call(a, &A::f); OCR2B = call(b, &A::f); }`,
    1,
    2,
  ],
  "an asterisk behind a dot in a text": [
    `const char text[] = "a.*b"; void setup() { OCR2A = text[1]; OCR2B = text[2]; }`,
    46,
    42,
  ],
  "functions defined as before 1989": [
    `int scale(x, num, den) int num, den, x; { return x * num / den; }
     static char *walk(p, n) char *p; { return p + n; }
     void setup() { static char t[] = { 1, 2, 3 }; OCR2A = scale(10, 6, 4); OCR2B = *walk(t, 2); }`,
    15,
    3,
  ],
  "assembly that writes registers": [
    `void setup() { asm volatile("sts %0, %1 ; comment" :: "n"(_SFR_MEM_ADDR(OCR2A)), "r"((uint8_t)77));
     asm("sbi 0x1e, 3"); OCR2B = GPIOR0; }`,
    77,
    8,
  ],
  "registers counted apart": [
    `void setup() { volatile uint8_t *p = &TCCR2A; p[&OCR2A - &TCCR2A] = 21; *(p + (&OCR2B - p)) = 22; }`,
    21,
    22,
  ],
  "a reference inside a value that is written": [
    `uint8_t n = 5; uint8_t bump(uint8_t &v) { return v += 3; }
     void setup() { OCR2A = bump(n) + 1; OCR2A = bump(n); OCR2B = n; }`,
    11,
    11,
  ],
  "choices that are places": [
    `uint8_t a = 1, b = 2; uint8_t &pick(bool c) { return c ? a : b; } struct S { uint8_t v; } s = { 3 }, r = { 4 };
     void setup() { bool c = true; pick(c) = 10; uint8_t *p = &(c ? b : a); *p += 20; (c ? s : r).v++;
     OCR2A = a + b; OCR2B = s.v * 10 + r.v; }`,
    32,
    44,
  ],
  "a target that counts is found once": [
    `uint8_t t[3] = { 1, 2, 3 }, *p = t;
     void setup() { uint8_t i = 0; t[i++] += 5; t[i++]++; *p++ |= 0x40; OCR2A = t[0] + t[1] + i; OCR2B = p - t; }`,
    75,
    1,
  ],
  "calls in the order in which the compiler makes them": [
    `uint8_t o; uint8_t e(uint8_t d) { o = o * 4 + d; return d; } uint8_t two(uint8_t a, uint8_t b) { return a - b; }
     void setup() { OCR2A = two(e(3), e(1)); OCR2B = o; o = 0; if (e(1) < e(2)) OCR2A += o; }`,
    8,
    7,
  ],
  "a choice without its middle": [
    `uint8_t n; uint8_t f() { return n++; } void setup() { OCR2A = f() ?: 7; OCR2A += f() ?: 100; OCR2B = n; }`,
    8,
    2,
  ],
  "lists in parentheses that begin with an assignment": [
    `void setup() { uint8_t c, d; OCR2A = (c = 7, d = 8, c * d); if ((c = d, c) > 7) OCR2B = (int)(c <<= 1, c); }`,
    56,
    16,
  ],
  "a type behind the parameters that speaks of them": [
    `template <typename A, typename B> auto mix(A a, B b) -> decltype(a + b) { return a + b; }
     void setup() { OCR2A = mix(1, 50L); OCR2B = mix((uint8_t)200, (uint8_t)100) >> 2; }`,
    51,
    75,
  ],
  "kinds of characters": [
    `void setup() { char c = '7', d = 'x'; OCR2A = isdigit(c) && !isDigit(d) ? c - '0' : 99; OCR2B = toupper(d) + isUpperCase('Q'); }`,
    7,
    89,
  ],
  "counting behind a sign or a not": [
    `void setup() { uint8_t n = 0, k = 3; if (!n++) OCR2A = n; OCR2B = -k-- + 10; OCR2B += ~k++ & 0x10; OCR2A += k; }`,
    4,
    23,
  ],
  "ranges of elements": [
    `const uint8_t t[] = { [0 ... 2] = 5, 7, [5] = 9 }; void setup() { OCR2A = t[2] + t[3]; OCR2B = sizeof t; }`,
    12,
    6,
  ],
  "templates ruled out by their types": [
    `template <bool C, typename T> struct If {}; template <typename T> struct If<true, T> { typedef T type; };
     template <typename T> typename If<sizeof(T) == 1, uint8_t>::type f(T) { return 1; }
     template <typename T> typename If<(sizeof(T) > 1), uint8_t>::type f(T) { return 2; }
     void setup() { OCR2A = f((uint8_t)0); OCR2B = f(0L); }`,
    1,
    2,
  ],
  "decltype of a name and of a place": [
    `template <typename A, typename B> struct Same { static const uint8_t v = 1; };
     template <typename A> struct Same<A, A> { static const uint8_t v = 2; };
     uint8_t a[2]; void setup() { decltype(a[0]) r = a[1]; r = 9; __typeof__(a[0]) c = a[1]; c++; OCR2A = a[1];
     OCR2B = Same<decltype(a[0]), uint8_t &>::v * 10 + Same<decltype(r), uint8_t>::v; }`,
    9,
    21,
  ],
  "inline namespaces and functions beside their operands": [
    `namespace hw { inline namespace v2 { struct Out { uint8_t v; }; uint8_t twice(const Out &o) { return o.v * 2; } } }
     void setup() { hw::Out o = { 6 }; OCR2A = twice(o); OCR2B = hw::twice(o) + 1; }`,
    12,
    13,
  ],
  "a weak function that nobody defines": [
    `extern "C" void hook(void) __attribute__((weak)); void setup() { OCR2A = 1; if (hook) hook(); OCR2B = hook ? 5 : 6; }`,
    1,
    6,
  ],
  "operators of enumerations": [
    `enum class F : uint8_t { a = 1, b = 4 }; F operator|(F x, F y) { return (F)((uint8_t)x | (uint8_t)y | 0x40); }
     enum M { one, two, three }; M &operator++(M &m) { return m = m == three ? one : (M)(m + 1); } int operator-(M, M) { return 77; }
     void setup() { OCR2A = (uint8_t)(F::a | F::b) + (two | 8); M m = three; ++m; ++m; OCR2B = m + (three - one) - (three + 1); }`,
    78,
    75,
  ],
  "inner braces left out": [
    `struct P { uint8_t x, y[2]; }; const uint8_t g[2][2] = { 1, 2, 3 }; P l[] = { 4, 5, 6, { 7 }, 8 };
     void setup() { OCR2A = g[1][0] * 10 + l[1].x; OCR2B = sizeof l + l[0].y[1] + l[2].x; }`,
    37,
    23,
  ],
  "bytes of a number by a pointer": [
    `void setup() { uint16_t w = 0x1234; OCR2A = ((uint8_t *)&w)[1]; *(uint8_t *)&w = 0x56; OCR2B = w - 0x1200; }`,
    18,
    86,
  ],
  "a pointer to rows, set later": [
    `void setup() { int m[2][3] = { { 1, 2, 3 }, { 4, 5, 6 } }; int (*row)[3]; row = m; row++; OCR2A = (*row)[1]; OCR2B = row - m; }`,
    5,
    1,
  ],
  "what is likely, and how far in a member begins": [
    `struct S { uint16_t a; uint8_t b; }; void setup() { uint8_t n = 3; if (__builtin_expect(n > 2, 0)) OCR2A = 4; OCR2B = offsetof(S, b); }`,
    4,
    2,
  ],
  "parameter packs": [
    `template <typename T> T sum(T v) { return v; }
     template <typename T, typename... R> T sum(T v, R... rest) { return v + sum(rest...); }
     template <uint8_t... N> uint8_t count() { return sizeof...(N); }
     void setup() { OCR2A = sum(1, 2, 3); OCR2B = count<7, 8, 9, 10>(); }`,
    6,
    4,
  ],
  "specialised templates": [
    `template <int N> struct V { static const uint8_t value = 1; };
     template <> struct V<2> { static const uint8_t value = 20; };
     template <typename T> struct Is { static const uint8_t pointer = 0; };
     template <typename T> struct Is<T *> { static const uint8_t pointer = 5; };
     void setup() { OCR2A = V<2>::value + V<3>::value; OCR2B = Is<char *>::pointer; }`,
    21,
    5,
  ],
  "conversion operators": [
    `struct N { uint8_t v; operator uint8_t() const { return v; } explicit operator bool() const { return v > 9; } };
     void setup() { N n = { 12 }; OCR2A = n; if (n) OCR2B = 1; else OCR2B = 2; }`,
    12,
    1,
  ],
  "destructors at every way out": [
    `uint8_t ended; struct G { ~G() { ended++; } };
     void f(uint8_t n) { G g; for (uint8_t i = 0; i < 3; i++) { G h; if (i == n) return; } }
     void setup() { f(1); OCR2A = ended; f(9); OCR2B = ended; }`,
    3,
    7,
  ],
  "labels of a switch inside a loop": [
    `uint8_t f(uint8_t n) { uint8_t s = 0, k = 0; switch (n) { case 0: do { s += 1; case 1: s += 10; } while (++k < 2); } return s; }
     void setup() { OCR2A = f(0); OCR2B = f(1); }`,
    22,
    21,
  ],
  "bit fields across bytes": [
    `union { struct { uint8_t a : 5; uint8_t b : 5; uint8_t : 1; uint8_t c : 2; } f; uint8_t raw[2]; } u;
     void setup() { u.f.a = 21; u.f.b = 19; u.f.c = 3; OCR2A = u.raw[0]; OCR2B = u.raw[1]; }`,
    0x75,
    0x1a,
  ],
  "a second base's virtual function": [
    `struct A { virtual uint8_t a() { return 1; } uint8_t x = 3; };
     struct B { virtual uint8_t b() { return 2; } };
     struct C : A, B { uint8_t own = 40; uint8_t b() override { return own; } } c;
     uint8_t ask(B *p) { return p->b(); }
     void setup() { OCR2A = ask(&c); OCR2B = c.a() + c.x; }`,
    40,
    4,
  ],
  "constructors of the base": [
    `struct A { uint8_t v; A(uint8_t x) : v(x) {} }; struct B : A { using A::A; } b(17);
     void setup() { OCR2A = b.v; OCR2B = B(3).v; }`,
    17,
    3,
  ],
  "lists as arguments and results": [
    `struct P { uint8_t x, y; }; P make() { return { 4, 5 }; } uint8_t sum(const P &p) { return p.x + p.y; }
     void setup() { OCR2A = sum(make()); OCR2B = sum({ 1, 2 }); }`,
    9,
    3,
  ],
  "walking an object from begin to end": [
    `struct L { uint8_t d[3] = { 1, 2, 3 }; uint8_t *begin() { return d; } uint8_t *end() { return d + 3; } } l;
     void setup() { uint8_t s = 0; for (auto &x : l) { s += x; x = 9; } OCR2A = s; OCR2B = l.d[2]; }`,
    6,
    9,
  ],
  "what auto is given is made once": [
    `uint8_t calls; struct P { uint8_t v; }; P make() { calls++; P p = { calls }; return p; }
     void setup() { auto p = make(); OCR2A = p.v; OCR2B = calls; }`,
    1,
    1,
  ],
  "a declaration as condition": [
    `uint8_t half(uint8_t x) { return x / 2; }
     void setup() { if (uint8_t h = half(9)) OCR2A = h; if (auto h = half(1)) OCR2B = h; else OCR2B = 50; }`,
    4,
    50,
  ],
};

describe("the language", () => {
  for (const [name, [text, a, b]] of Object.entries(SNIPPETS)) {
    it(name, async () => {
      expect(await outcome(text)).toEqual({ a, b, gaps: [] });
    });
  }

  it("assembly's outputs are not known afterwards", async () => {
    const found = await outcome(`void setup() { uint8_t x = 3; asm("ldi %0, 7" : "=d"(x)); OCR2A = x; OCR2B = 1; }`);
    expect(found).toEqual({ a: null, b: 1, gaps: [] });
  });

  it("assembly that stores makes a gap", async () => {
    const found = await outcome(`void setup() { asm volatile("sts 0xB3, r1"); OCR2B = 1; }`);
    expect(found.gaps).toEqual(["inline assembly"]);
  });

  it("texts of the core are put together without a gap", async () => {
    const text = `void setup() { String s = "a" + String(3) + F("b"); if (s + "c" == "d") OCR2A = 1; OCR2B = 2; }`;
    expect((await outcome(text)).gaps).toEqual([]);
  });
});

describe("what was not seen", () => {
  it("is told by the name that the sketch gives it", async () => {
    const { gaps } = await outcome(`#include "Tilt.h"
      void setup() { if (!TILT.begin()) while (1) ; }`);
    expect(gaps).toEqual(["include file 'Tilt.h' was not found", "TILT.begin() was not seen"]);
  });
});
