void setup() {
  pinMode(10, OUTPUT);
  ICR1 = 19999;
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  OCR1B = 5000;
}
void loop() {}
