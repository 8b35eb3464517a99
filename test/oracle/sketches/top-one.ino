void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  OCR1A = 1;
  OCR1B = 0;
}
void loop() {}
