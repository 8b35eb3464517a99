// 1500 * 60 does not fit an int.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS11);
  unsigned int us = 1500;
  unsigned int factor = 60;
  ICR1 = us * factor;
  OCR1A = us;
}
void loop() {}
