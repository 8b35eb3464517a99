// WGM12 belongs to TCCR1B.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM12);
  TCCR1B = _BV(CS10);
  OCR1A = 30;
}
void loop() {}
