// macros that count their arguments, names made of lines, statics in macros
#define NARGS(...) NARGS_(__VA_ARGS__, 8, 7, 6, 5, 4, 3, 2, 1, 0)
#define NARGS_(a1, a2, a3, a4, a5, a6, a7, a8, n, ...) n
#define CONCAT(a, b) CONCAT_(a, b)
#define CONCAT_(a, b) a##b
#define SUM1(a) (a)
#define SUM2(a, b) ((a) + (b))
#define SUM3(a, b, c) ((a) + SUM2(b, c))
#define SUM(...) CONCAT(SUM, NARGS(__VA_ARGS__))(__VA_ARGS__)
#define BITS(...) (0 FOLD(__VA_ARGS__))
#define FOLD(a, ...) | _BV(a) FOLD2(__VA_ARGS__)
#define FOLD2(a, ...) | _BV(a)
#define UNIQUE CONCAT(local_, __LINE__)
#define ONCE static uint8_t UNIQUE; if (!UNIQUE++)
#define STATIC_ARRAY(name, ...) static const uint8_t name[] = { __VA_ARGS__ }; enum { name##_len = sizeof(name) }
STATIC_ARRAY(levels, 3, 1, 4, 1, 5);
void once() { ONCE OCR2A += 5; }
void setup() {
  DDRB |= 8; DDRD |= 8;
  TCCR2A = BITS(COM2A1, COM2B1) | BITS(WGM20, WGM21);
  OCR2A = SUM(1, 2, 3) + SUM(10) + NARGS(a, b, c, d);
  once(); once(); once();
  OCR2B = levels_len * levels[4] + SUM(2, 3);
}
void loop() {}
