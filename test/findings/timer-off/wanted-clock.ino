// wants D10: 3.125 kHz +-1 %
//=^^^^^^^^^^^^^^^^^^^^^^^^^^ finding off-frequency "D10 gives no pulse: timer 1 has no clock selected; 3093.75..3156.25 Hz is wanted"
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12);
//= finding timer-off "Timer 1 has no clock selected, so D10 stands still"
//= fix "Start timer 1 with prescaler 8: 3125 Hz"
  ICR1 = 639;
  OCR1B = 64;
}
void loop() {}
