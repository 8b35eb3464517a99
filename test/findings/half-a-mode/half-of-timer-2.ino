void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1);
  TCCR2B = _BV(WGM22) | _BV(CS21);
//= finding half-a-mode "Timer 2 is in a reserved mode: its bits WGM22..0 are 100"
//= fix "Set WGM20: phase-correct PWM with TOP OCR2A"
  OCR2A = 180;
  OCR2B = 90;
}
void loop() {}
