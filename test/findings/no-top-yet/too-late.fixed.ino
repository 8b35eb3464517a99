void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  ICR1 = 639;
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  delay(100);
  OCR1A = 320;
}
void loop() {}
