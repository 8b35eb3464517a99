void setup() {
  pinMode(10, OUTPUT);
  OCR1B = 5000;
//= finding mode-ignores-write "OCR1B = 5000 is stored as 136: while a mode with fixed TOP 255 is on, only these bits are kept"
//= fix "Move it behind the mode"
  ICR1 = 19999;
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
}
void loop() {}
