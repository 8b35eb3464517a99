void chirp() {
  uint8_t a = TCCR2A, b = TCCR2B;
  TCCR2A = _BV(COM2B0) | _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 60;
  delay(100);
  TCCR2A = a;
  TCCR2B = b;
}
void setup() { pinMode(3, OUTPUT); }
void loop() {
  chirp();
  delay(900);
}
