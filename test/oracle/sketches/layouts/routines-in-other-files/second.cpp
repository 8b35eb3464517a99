#include "beat.h"
#include <avr/interrupt.h>
static uint8_t half;
ISR(TIMER1_COMPB_vect) {
  half = !half;
  if (half) PORTB |= _BV(4); else PORTB &= ~_BV(4);
}
void second_start() {
  DDRB |= _BV(4);
  OCR1B = 100;
  TIMSK1 |= _BV(OCIE1B);
}
