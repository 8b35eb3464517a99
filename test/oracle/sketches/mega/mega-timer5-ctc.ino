void setup() {
  pinMode(46, OUTPUT);
  TCCR5A = _BV(COM5A0);
  TCCR5B = _BV(WGM52) | _BV(CS51);
  OCR5A = 999;
}
void loop() {}
