// The lamp is cut off by its COM bit, not by its duty.
void lampOff() { TCCR2A &= ~_BV(COM2B1); }
void lampOn() { TCCR2A |= _BV(COM2B1); }
void setup() {
  DDRD |= _BV(PD3);
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS21);
  OCR2B = 120;
}
void loop() {
  lampOn();
  delay(25);
  lampOff();
  delay(25);
}
