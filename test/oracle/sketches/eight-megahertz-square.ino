void setup() {
  DDRB |= _BV(PB3);
  TCCR2A = _BV(COM2A0) | _BV(WGM21);
  TCCR2B = _BV(CS20);
  OCR2A = 0;
}
void loop() {}
