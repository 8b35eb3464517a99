void setup() {
  pinMode(6, OUTPUT);
  TCCR0A = _BV(COM0A0) | _BV(WGM01);
  OCR0A = 124;
}
void loop() {}
