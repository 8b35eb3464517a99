void setup() {
  TIMSK2 = 0;
  ASSR |= _BV(AS2);
  TCNT2 = 0;
  TCCR2A = 0x00;
  TCCR2B = _BV(CS22) | _BV(CS20);
  while (ASSR & 0x1F) {}
  TIFR2 = _BV(TOV2);
  TIMSK2 |= _BV(TOIE2);
}
ISR(TIMER2_OVF_vect) { PORTB ^= _BV(PB5); }
void loop() {}
