volatile byte a, b;
ISR(TIMER1_COMPA_vect) { a++; }
ISR(TIMER1_COMPB_vect) { b++; }
void setup() {
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 19999;
  OCR1B = 9999;
  TIMSK1 = _BV(OCIE1A) | _BV(OCIE1B);
}
void loop() {}
