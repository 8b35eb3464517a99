const unsigned int TOP_VALUE = 999;
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS22) | _BV(CS21);
  OCR2A = 249;
  OCR2B = 100;
}
void loop() {}
