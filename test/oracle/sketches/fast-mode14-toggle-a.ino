void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 799;
  OCR1A = 399;
}
void loop() {}
