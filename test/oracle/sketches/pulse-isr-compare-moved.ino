// The compare value moves on by itself, the counter runs free.
ISR(TIMER1_COMPA_vect) {
  OCR1A += 2000;
  PINB = _BV(PINB0);
}

void setup() {
  DDRB |= _BV(DDB0);
  TCCR1A = 0;
  TCCR1B = _BV(CS11);
  OCR1A = 2000;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {
}
