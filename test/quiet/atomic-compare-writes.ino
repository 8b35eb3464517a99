#include <util/atomic.h>
// The valve's duty and the routine's own compare value on one timer: the block keeps the two bytes together.
ISR(TIMER1_COMPB_vect) { OCR1B += 3000; }

void setup() {
  pinMode(8, OUTPUT);
  TCCR1A = 0;
  TCCR1B = _BV(CS11);
  TIMSK1 = _BV(OCIE1B);
}

void loop() {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { OCR1A = TCNT1 + 500; }
  while (!(TIFR1 & _BV(OCF1A))) ;
  TIFR1 = _BV(OCF1A);
  PINB = _BV(PB0);
}
