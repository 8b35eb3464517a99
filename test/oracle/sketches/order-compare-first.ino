// The compare value is written while the core's 8-bit mode is still on.
void setup() {
  pinMode(9, OUTPUT);
  OCR1A = 7999;
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}
void loop() {}
