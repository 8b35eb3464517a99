void setup() {
  DDRH |= _BV(PH3) | _BV(PH4) | _BV(PH5);
  TCCR4A = _BV(COM4A1) | _BV(COM4B1) | _BV(COM4C1) | _BV(WGM41);
  TCCR4B = _BV(WGM43) | _BV(WGM42) | _BV(CS41);
  ICR4 = 39999;
  OCR4A = 2000;
  OCR4B = 3000;
  OCR4C = 4000;
}
void loop() {}
