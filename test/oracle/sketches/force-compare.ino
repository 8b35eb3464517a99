// The output is set to a known level by a forced compare.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1A0);
  TCCR1C = _BV(FOC1A);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 4999;
}
void loop() {}
