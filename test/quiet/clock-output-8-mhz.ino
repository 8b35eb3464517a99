void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A0) | _BV(WGM21);
  TCCR2B = _BV(CS20);
  OCR2A = 0;
}
void loop() {}
