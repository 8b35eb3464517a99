void setup() {
  DDRB |= _BV(DDB5);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11) | _BV(CS10);
  OCR1A = 24999;
}
void loop() {
  while (!(TIFR1 & _BV(OCF1A))) {}
  TIFR1 = _BV(OCF1A);
  PINB = _BV(PINB5);
}
