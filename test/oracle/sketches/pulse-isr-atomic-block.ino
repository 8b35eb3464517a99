// The same, as an atomic block, with printing.
#include <util/atomic.h>

volatile long ticks = 0;

ISR(TIMER2_COMPA_vect) {
  ticks++;
  PIND = _BV(PIND7);
}

void setup() {
  Serial.begin(9600);
  DDRD |= _BV(DDD7);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 249;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
  long now;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    now = ticks;
  }
  Serial.println(now);
  delay(50);
}
