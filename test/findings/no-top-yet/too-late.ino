void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
//= finding no-top-yet "Timer 1 takes TOP from ICR1, which is still 0 here: D9 gives no pulse"
//= fix "Write ICR1 before the mode is chosen"
  delay(100);
  ICR1 = 639;
  OCR1A = 320;
}
void loop() {}
