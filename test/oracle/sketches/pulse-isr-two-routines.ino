// High with the overflow, low with the compare: PWM on any pin.
ISR(TIMER1_OVF_vect) {
  PORTD |= _BV(PORTD7);
}

ISR(TIMER1_COMPB_vect) {
  PORTD &= ~_BV(PORTD7);
}

void setup() {
  DDRD |= _BV(DDD7);
  TCCR1A = _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = 1999;
  OCR1B = 499;
  TIMSK1 = _BV(TOIE1) | _BV(OCIE1B);
}

void loop() {
}
