// wants D9: 25 kHz +-1 %
//=^^^^^^^^^^^^^^^^^^^^^^ finding off-frequency "D9 gives no pulse: TOP (ICR1) is 0: the counter does not move, there is no pulse; 24.75..25.25 kHz is wanted"
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
//= finding no-top-yet "Timer 1 takes TOP from ICR1, which is still 0 here: D9 gives no pulse"
//= fix "Write ICR1 = 639 first: 25 kHz"
  OCR1A = 320;
}
void loop() {}
