// A sketch that has an init of its own (and uses nothing that would bring the core's in) runs without the core's settings.
void init() {
  TCCR2B = _BV(CS21);
}
void setup() {
  DDRB |= _BV(PB3);
  TCCR2A |= _BV(COM2A1) | _BV(WGM20);
  OCR2A = 100;
}
void loop() {
  for (volatile unsigned n = 0; n < 2000; n++) { }
}
