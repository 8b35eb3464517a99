void setup() {
  pinMode(4, OUTPUT);
  TCCR0A = _BV(COM0B1) | _BV(WGM01) | _BV(WGM00);
  TCCR0B = _BV(WGM02) | _BV(CS01);
  OCR0A = 149;
  OCR0B = 29;
}
void loop() {}
