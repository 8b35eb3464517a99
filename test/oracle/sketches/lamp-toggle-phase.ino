void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A0) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = 99;
}
void loop() {}
