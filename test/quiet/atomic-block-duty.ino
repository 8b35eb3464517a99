#include <util/atomic.h>
volatile uint16_t wanted = 100;

ISR(TIMER1_OVF_vect) { OCR1A = wanted; }

void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 1000;
  TIMSK1 = _BV(TOIE1);
}

void loop() {
  uint16_t next = analogRead(A0);
  if (next > 999) next = 999;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { wanted = next; }
  delay(10);
}
