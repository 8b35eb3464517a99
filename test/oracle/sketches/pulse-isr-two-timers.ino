// Two timers, two lamps.
ISR(TIMER1_COMPA_vect) {
  PINB = _BV(PINB0);
}

ISR(TIMER2_COMPA_vect) {
  PIND = _BV(PIND7);
}

void setup() {
  DDRB |= _BV(DDB0);
  DDRD |= _BV(DDD7);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS10);
  OCR1A = 7999;
  TIMSK1 = _BV(OCIE1A);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS21);
  OCR2A = 124;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
}
