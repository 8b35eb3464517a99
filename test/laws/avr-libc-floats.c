/* Prints, as words, what avr-libc makes of pairs of numbers: run by measure-avr-libc.mjs in a CPU simulator. */
#include <avr/io.h>
#include <math.h>
#include <stdint.h>

typedef union {
  float number;
  uint32_t word;
} Both;

static uint32_t state = 12345;
static volatile float a, b;

static uint32_t next(void) {
  state ^= state << 13;
  state ^= state >> 17;
  state ^= state << 5;
  return state;
}

static void put(float value) {
  Both both = {.number = value};
  for (uint8_t byte = 0; byte < 4; byte++) {
    while (!(UCSR0A & (1 << UDRE0))) {
    }
    UDR0 = (uint8_t)both.word;
    both.word >>= 8;
  }
}

/* By turns: any bit pattern, small whole numbers, two ranges of moderate size. */
static float pick(uint8_t kind) {
  Both both;
  uint32_t word = next();
  if (kind == 0) both.word = word;
  else if (kind == 1) both.number = (int32_t)(word % 2001) - 1000;
  else if (kind == 2) both.word = (word & 0x807fffff) | ((uint32_t)(120 + next() % 16) << 23);
  else both.word = (word & 0x807fffff) | ((uint32_t)(110 + next() % 22) << 23);
  return both.number;
}

int main(void) {
  UCSR0B = 1 << TXEN0;
  for (uint16_t row = 0; row < ROWS; row++) {
    a = pick(row & 3);
    b = pick(row & 3);
    put(a); put(b);
    put(a + b); put(a - b); put(a * b); put(a / b);
    put(sqrt(a)); put(floor(a)); put(ceil(a)); put(trunc(a)); put(round(a)); put(fabs(a)); put(square(a));
    put(sin(a)); put(cos(a)); put(tan(a)); put(asin(a)); put(acos(a)); put(atan(a));
    put(exp(a)); put(log(a)); put(log10(a)); put(sinh(a)); put(cosh(a)); put(tanh(a)); put(cbrt(a));
    put(fmod(a, b)); put(atan2(a, b)); put(pow(a, b)); put(hypot(a, b));
  }
  for (;;) {
  }
}
