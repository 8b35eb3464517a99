ISR(TIMER2_COMPA_vect) { PINB = _BV(PB5); }
void setup() {
  DDRB |= _BV(DDB5);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22) | _BV(CS21) | _BV(CS20);
  OCR2A = 155;
  TIMSK2 = _BV(OCIE2A);
}
void loop() {}
