void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12);
//= finding timer-off "Timer 1 has no clock selected, so D10 stands still"
//= fix "Start timer 1 with prescaler 1: 25 kHz"
  ICR1 = 639;
  OCR1B = 64;
}
void loop() {}
