void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1);
  TCCR2B = _BV(WGM22) | _BV(CS21);
  OCR2B = 40;
}
void loop() {}
