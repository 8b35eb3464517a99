const unsigned int steps = 400;
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = steps;
}
void loop() { OCR1A = map(analogRead(A0), 0, 1023, 0, steps); delay(10); }
