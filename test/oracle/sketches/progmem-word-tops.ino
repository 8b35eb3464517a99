#include <avr/pgmspace.h>
const uint16_t tops[3] PROGMEM = { 999, 1999, 3999 };
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
}
void loop() {
  for (byte i = 0; i < 3; i++) {
    ICR1 = pgm_read_word(tops + i);
    OCR1A = ICR1 / 2;
    delay(15);
  }
}
