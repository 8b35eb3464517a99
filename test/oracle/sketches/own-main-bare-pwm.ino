#include <avr/io.h>
int main() {
  DDRD = (1 << PD6) | (1 << PD5);
  OCR0A = 128;
  OCR0B = 64;
  TCCR0A = (1 << COM0A1) | (1 << COM0B1) | (1 << WGM01) | (1 << WGM00);
  TCCR0B = (1 << CS01);
  for (;;) {
  }
  return 0;
}
