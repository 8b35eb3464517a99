// The counter is set by the routine.
ISR(TIMER1_OVF_vect) {
  TCNT1 = 63536;
  PINB = _BV(PINB0);
}

void setup() {
  DDRB |= _BV(DDB0);
  TCCR1A = 0;
  TCCR1B = _BV(CS11);
  TCNT1 = 63536;
  TIMSK1 = _BV(TOIE1);
}

void loop() {
}
