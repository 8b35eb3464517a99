/** Programs for a preprocessor, each about one rule. What the compiler makes of them is recorded for `npm test`. */

export const HAND_WRITTEN: Readonly<Record<string, string>> = {
  "the standard's rescanning example": `#define x 3
#define f(a) f(x * (a))
#undef x
#define x 2
#define g f
#define z z[0]
#define h g(~
#define m(a) a(w)
#define w 0,1
#define t(a) a
#define p() int
#define q(x) x
#define r(x,y) x ## y
#define str(x) # x
f(y+1) + f(f(z)) % t(t(g)(0) + t)(1);
g(x+(3,4)-w) | h 5) & m
(f)^m(m);
p() i[q()] = { q(1), r(2,3), r(4,), r(,5), r(,) };
char c[2][6] = { str(hello), str() };`,
  "the standard's quoting example": `#define str(s) # s
#define xstr(s) str(s)
#define debug(s, t) printf("x" # s "= %d, x" # t "= %s", x ## s, x ## t)
#define INCFILE(n) vers ## n
#define glue(a, b) a ## b
#define xglue(a, b) glue(a, b)
#define HIGHLOW "hello"
#define LOW LOW ", world"
debug(1, 2);
fputs(str(strncmp("abc\\0d", "abc", '\\4') // this goes away
== 0) str(: @\\n), s);
xstr(INCFILE(2).k)
glue(HIGH, LOW);
xglue(HIGH, LOW)`,
  "the standard's pasting of pasting": `#define hash_hash # ## #
#define mkstr(a) # a
#define in_between(a) mkstr(a)
#define join(c, d) in_between(c hash_hash d)
char p[] = join(x, y);`,
  "the standard's empty arguments": `#define t(x,y,z) x ## y ## z
int j[] = { t(1,2,3), t(,4,5), t(6,,7), t(8,9,), t(10,,), t(,11,), t(,,12), t(,,) };`,
  "the standard's variable arguments": `#define debug(...) fprintf(stderr, __VA_ARGS__)
#define showlist(...) puts(#__VA_ARGS__)
#define report(test, ...) ((test)?puts(#test): printf(__VA_ARGS__))
debug("Flag");
debug("X = %d\\n", x);
showlist(The first, second, and third items.);
report(x>y, "x is %d but y is %d", x, y);`,
  "a function-like macro that names another at its end": `#define f(a) a*g
#define g(a) f(a)
f(2)(9)
f(2)(9)(3)`,
  "the comma before an omitted variable part": `#define LOG(text, ...) log(text, ##__VA_ARGS__)
LOG("a") LOG("a", 1) LOG("a",) LOG("a", 1, 2)
#define ONE(...) f(a, ##__VA_ARGS__)
ONE() ONE(1) ONE(,)`,
  "a named variable part": `#define LOG(text, rest...) log(text, ## rest)
LOG("a") LOG("a", 1, (2, 3))`,
  "a macro's name without parentheses": `#define DUTY(x) ((x) * 2)
DUTY + DUTY; DUTY (3) DUTY
(4)
int DUTY;`,
  "a name pasted and then expanded": `#define TCCR2A reg_a
#define CONTROL(n, l) TCCR ## n ## l
#define N 2
CONTROL(2, A) = 1; CONTROL(N, A) = 2; CONTROL(0, B)`,
  "pasting two levels down": `#define PASTE_(a, b) a ## b
#define PASTE(a, b) PASTE_(a, b)
#define N 1
PASTE(OCR, PASTE(N, A)) PASTE_(OCR, N)`,
  "names that are not expanded inside themselves": `#define foo (4 + foo)
#define x (4 + y)
#define y (2 * x)
foo; x; y;
#define NULLER NULLER
NULLER`,
  "minus before a negative constant": `#define NEG -1
#define PLUS +
x=-NEG; x = -NEG; a+PLUS+b; NEG-1; a PLUS+ b; -PLUS-`,
  "numbers that would run together": `#define E 0xE
#define ONE 1
E+1 E-ONE ONE.5 .ONE x ONE ONE ONE##ONE`,
  "strings beside words": `#define NAME "fan"
#define WORD abc
NAME"x" WORD"y" L WORD "a"NAME`,
  "blank space inside quoted arguments": `#define S(x) #x
S(  a   +   b  ) S(a/* c */b) S("a  b") S('"') S("\\n") S(\\) S(a
b)`,
  "quoting an argument before it is expanded": `#define S(x) #x
#define X(x) S(x)
#define A B
#define B 3
S(A) X(A) X(A + B) S(S(A)) X(S(A))`,
  "parentheses and commas in arguments": `#define F(a, b) [a|b]
F((1, 2), 3) F({1}, {2}) F(g(1, (2, 3)), "a,b") F(,) F( , )`,
  "arguments over many lines": `#define MAX(a, b) ((a) > (b) ? (a) : (b))
int x = MAX(
  1, // first
  2  /* second */
);
y`,
  "an argument that holds an invocation of the same macro": `#define MIN(a, b) ((a) < (b) ? (a) : (b))
MIN(MIN(1, 2), MIN(3, MIN(4, 5)))`,
  "redefinition and undefinition": `#define A 1
A
#define A 2
A
#undef A
A
#define A(x) <x>
A A(3)
#undef UNKNOWN`,
  "conditionals in conditionals": `#define A 1
#ifdef A
one
#ifdef B
two
#else
three
#if A == 1 && !defined(B)
four
#elif 1
five
#endif
#endif
#else
six
#if 1
seven
#endif
#endif
eight`,
  "elif after a taken group is not read": `#if 1
a
#elif 1 / 0
b
#elif
c
#else
d
#endif`,
  "text in a skipped group": `#if 0
it's not closed
"nor this
#error never
#unknown
/* #endif */
// #endif
#if 1
#else
#endif
#else
kept
#endif`,
  "defined through a macro": `#define HAS_A defined(A)
#define A
#if HAS_A
yes
#endif
#if defined A && defined (A) && !defined B
yes
#endif`,
  "a function-like macro in a condition": `#define VERSION(a, b) ((a) * 100 + (b))
#define NOW VERSION(1, 8)
#if NOW >= VERSION(1, 6) && NOW < VERSION(2, 0)
yes
#else
no
#endif
#define EMPTY
#if EMPTY 1 EMPTY
yes
#endif`,
  "signed and unsigned conditions": `#if -1 < 0
a
#endif
#if -1 < 0u
b
#else
c
#endif
#if -1 >> 1 == -1
d
#endif
#if (0 ? 1u : -1) > 0
e
#endif
#if 0x7FFFFFFFFFFFFFFF + 1 < 0
f
#endif
#if 18446744073709551615u == -1
g
#endif`,
  "characters in conditions": `#if 'A' == 65 && '\\n' == 10 && '\\x41' == 'A' && '\\101' == 65 && '\\0' == 0
a
#endif
#if '\\377' < 0
b
#endif
#if 'ab' == 24930
c
#endif`,
  "operators in conditions": `#if 1 + 2 * 3 == 7 && (1 << 4 | 3) == 19 && 7 % 4 == 3 && -7 / 2 == -3 && ~0 == -1
a
#endif
#if 1 ? 0 ? 1 : 2 : 0
b
#endif
#if 0 && 1 / 0 || 1
c
#endif
#if 1 || 1 % 0
d
#endif
#if not 0 and 1 bitor 2
e
#endif
#if true && !false && !unknown
f
#endif`,
  "spliced lines": `#define LONG a \\
  b \\
  c
LONG; int fo\\
o; "str\\
ing"; // comment \\
still comment
#def\\
ine SPLIT 1
SPLIT x +\\
+ y`,
  "comments in directives": `#/* a */define /* b */ A /* c */ 1 /* d
e */ + 2 // f
A
# /* g */ ifdef /* h */ A // i
yes
#endif /* j */
/* k */ #define B 2
B`,
  "the null directive and blanks before a hash": `#
  #
   # define A 1
A`,
  "raw strings": `#define x 1
R"(a "x" // no comment
#define y
x)" x R"--(a)" b)--" u8R"(x)" LR"(x)"`,
  "digit suffixes and exponents": `#define e 5
#define p 6
#define L 7
1e+3 0x1p-2 1.5e-e 1L 0xe+e 1u e p L .5e3f`,
  "line numbers": `__LINE__
#define L __LINE__
L
#line 100
L __LINE__
#line 7 "other.h"
__LINE__ __FILE__`,
  counters: `#define UNIQUE_(a, b) a ## b
#define UNIQUE(a, b) UNIQUE_(a, b)
UNIQUE(v, __COUNTER__) UNIQUE(v, __COUNTER__) __COUNTER__`,
  "a directive among arguments": `#define F(a) <a>
F(
#ifdef NOPE
1
#else
2
#endif
)
F(
#define G 9
G)
G`,
  "a line that begins with a hash from a macro": `#define HASH #
HASH define A 1
A`,
  "a macro that calls itself through an argument": `#define ID(x) x
#define REC(x) x + REC(x)
ID(REC(1)) ID(ID(ID(2))) ID(ID)(3)`,
  "deferred invocation": `#define EMPTY()
#define DEFER(id) id EMPTY()
#define EXPAND(...) __VA_ARGS__
#define A() 123
DEFER(A)() EXPAND(DEFER(A)())`,
  "detection of an empty argument": `#define SECOND(a, b, ...) b
#define PROBE() ~, 1
#define IS(x) SECOND(x, 0, 0)
IS(PROBE()) IS(2)`,
  "a table written once": `#define PINS X(1, fan) X(2, lamp) X(3, pump)
#define X(n, name) PIN_##name = n,
enum { PINS };
#undef X
#define X(n, name) #name,
const char *names[] = { PINS };`,
  "include guards by hand": `#ifndef GUARD
#define GUARD
first
#endif
#ifndef GUARD
second
#endif`,
  "the compiler's own names": `__GNUC__ __cplusplus __INT_MAX__ __AVR__ __AVR_ARCH__ __SIZEOF_POINTER__ __CHAR_BIT__
#if __GNUC__ > 4 && defined(__AVR__) && __cplusplus >= 201103L
yes
#endif`,
  "parameters with the names of macros": `#define a 9
#define F(a, b) a b a
#define b 8
F(1, 2) F(a, b)`,
  "empty expansions between tokens": `#define NOTHING
#define NOTHING_TOO() NOTHING
-NOTHING- a NOTHING b NOTHING_TOO() c +NOTHING_TOO()+ NOTHING`,
  "marks of three characters": `#define A <<
#define B =
a A= b; a <<= b; a A B b; x->*y; f(...); A<; -> ##`,
};
