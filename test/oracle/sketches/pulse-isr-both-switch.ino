// The main program has a hand in it: nothing is told.
ISR(TIMER1_COMPA_vect) {
  PINB = _BV(PINB0);
}

void setup() {
  DDRB |= _BV(DDB0);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 1999;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {
  delay(7);
  PORTB &= ~_BV(PORTB0);
}
