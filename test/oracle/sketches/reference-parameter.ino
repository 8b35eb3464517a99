void halve(uint16_t &v) { v /= 2; }
void setup() {
  pinMode(10, OUTPUT);
  uint16_t v = 1000;
  halve(v); halve(v);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 1000;
  OCR1B = v;
}
void loop() {}
