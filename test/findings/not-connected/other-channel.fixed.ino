void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1A |= _BV(COM1B1);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 639;
  OCR1B = 320;
}
void loop() {}
