void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 400;
  OCR1A = 100;
}
void loop() {}
