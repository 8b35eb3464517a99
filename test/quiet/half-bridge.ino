// Complementary outputs, phase and frequency correct.
void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(COM1B0);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 400;
  OCR1A = 180;
  OCR1B = 220;
}
void loop() {}
