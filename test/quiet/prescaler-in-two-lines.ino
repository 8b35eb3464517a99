ISR(TIMER1_COMPA_vect) { PORTB ^= _BV(PORTB5); }
void setup() {
  DDRB |= _BV(DDB5);
  TCCR1A = 0;
  TCCR1B = 0;
  TCCR1B |= _BV(WGM12);
  TCCR1B |= _BV(CS12);
  TCCR1B |= _BV(CS10);
  OCR1A = 7811;
  TIMSK1 = _BV(OCIE1A);
}
void loop() {}
