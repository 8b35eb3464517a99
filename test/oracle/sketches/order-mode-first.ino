void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = 0;
  TCCR1B = 0;
  OCR1A = 7999;
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}
void loop() {}
