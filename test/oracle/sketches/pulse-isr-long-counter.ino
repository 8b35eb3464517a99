// A counter of milliseconds that never starts again, and a rest by division.
volatile unsigned long ms = 0;

ISR(TIMER2_COMPA_vect) {
  ms++;
  if (ms % 20 == 0) PIND = _BV(PIND7);
}

void setup() {
  DDRD |= _BV(DDD7);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 249;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
}
