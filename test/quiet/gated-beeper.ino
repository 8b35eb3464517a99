void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = 999;
  OCR1A = 499;
}
void loop() {
  TCCR1A |= _BV(COM1A1);
  delay(200);
  TCCR1A &= ~_BV(COM1A1);
  delay(800);
}
