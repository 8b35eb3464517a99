// The routine takes longer than its period: it is missed again and again.
ISR(TIMER2_COMPA_vect) {
  PIND = _BV(PIND7);
  delayMicroseconds(90);
}

void setup() {
  DDRD |= _BV(DDD7);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS21);
  OCR2A = 159;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
}
