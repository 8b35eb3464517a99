unsigned int factorial(byte n) { return n < 2 ? 1 : n * factorial(n - 1); }
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS10);
  OCR1A = factorial(7);
}
void loop() {}
