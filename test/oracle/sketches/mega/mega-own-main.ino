#include <avr/io.h>
int main(void) {
  DDRE |= _BV(PE4);
  TCCR3A = _BV(COM3B0);
  TCCR3B = _BV(WGM32) | _BV(CS30);
  OCR3A = 199;
  OCR3B = 100;
  while (1) {}
}
