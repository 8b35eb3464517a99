// ICR1 written while the core's mode does not use it.
void setup() {
  pinMode(9, OUTPUT);
  ICR1 = 1999;
  OCR1A = 200;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
}
void loop() {}
