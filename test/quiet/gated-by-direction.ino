void setup() {
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);
  OCR2A = 51;
  OCR2B = 25;
}
void loop() {
  DDRD |= _BV(DDD3);
  delay(5);
  DDRD &= ~_BV(DDD3);
  delay(45);
}
