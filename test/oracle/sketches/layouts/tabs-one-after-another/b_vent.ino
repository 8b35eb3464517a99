void startVent() {
  pinMode(VENT_PIN_NOW(), OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | CLOCK_BITS;
}
int VENT_PIN_NOW() { return 9; }
