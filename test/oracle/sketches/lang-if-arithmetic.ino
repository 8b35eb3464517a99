// conditions of the preprocessor with arithmetic, characters, signs and skipped garbage
#define VERSION 0x0203
#define MAJOR(v) ((v) >> 8)
#define MINOR(v) ((v) & 0xFF)
#define FEATURES (1 << 2 | 1 << 4)
#define HAS(f) (FEATURES & (1 << f))
#if MAJOR(VERSION) >= 2 && MINOR(VERSION) != 4 ? HAS(4) : 0
#  define A 11
#else
#  define A 12
#endif
#if defined(NOTHERE) || -1 > 0u
#  define B 21
#elif 'a' == 97 && '\x41' < 'B' && 10 / 3 == 3 && -7 % 3 == -1
#  define B 22
#endif
#if UNDEFINED_NAME
#  define C 31
#elif !UNDEFINED_NAME && (0x7FFFFFFF + 1LL > 0) && (~0 == -1)
#  define C 32
#endif
#ifndef C
#error no
#endif
#if 0
garbage ' " ( {
#elif 1
# if 1
#  undef A
#  define A 13
# endif
#else
more " garbage
#endif
#define WEIRD(x) x ## 1 \
   + x ## 2
const int n1 = 1, n2 = 2;
void setup() {
  DDRB |= 8; DDRD |= 0x48;
  TCCR2A = 0xA3; TCCR0A |= 0x80;
  OCR2A = A; OCR2B = B; // a comment that goes on \
  OCR2B = 200;
  OCR0A = C + WEIRD(n);
}
void loop() {}
