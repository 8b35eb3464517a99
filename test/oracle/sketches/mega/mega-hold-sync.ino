void setup() {
  GTCCR = _BV(TSM) | _BV(PSRSYNC);
  TCCR3A = _BV(COM3A1) | _BV(WGM30); TCCR3B = _BV(WGM32) | _BV(CS31);
  TCCR4A = _BV(COM4A1) | _BV(WGM40); TCCR4B = _BV(WGM42) | _BV(CS31);
  OCR3A = 64; OCR4A = 64;
  pinMode(5, OUTPUT); pinMode(6, OUTPUT);
  GTCCR = 0;
}
void loop() {}
