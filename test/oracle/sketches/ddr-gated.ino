// The channel runs all the time, the direction gates it.
void setup() {
  TCCR2A = _BV(COM2A1) | _BV(WGM20);
  TCCR2B = _BV(CS21);
  OCR2A = 66;
}
void loop() {
  DDRB |= _BV(PB3);
  delay(20);
  DDRB &= ~_BV(PB3);
  delay(20);
}
