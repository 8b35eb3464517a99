// Bell tone on pin 11 by toggling, 4 kHz asked for.
const unsigned long WANTED = 4000;
void setup() {
  DDRB |= _BV(PB3);
  TCCR2A = _BV(COM2A0) | _BV(WGM21);
  TCCR2B = _BV(CS21);
  OCR2A = F_CPU / 8 / 2 / WANTED - 1;
}
void loop() {}
