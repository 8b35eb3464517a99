// Phase correct: the overflow comes at BOTTOM.
ISR(TIMER1_OVF_vect) {
  PINB = _BV(PINB0);
}

void setup() {
  DDRB |= _BV(DDB0);
  TCCR1A = _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS11);
  ICR1 = 1000;
  TIMSK1 = _BV(TOIE1);
}

void loop() {
}
