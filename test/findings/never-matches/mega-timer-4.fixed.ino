// for pulsewright: board mega
ISR(TIMER4_COMPB_vect) { PORTB ^= 0x80; }
void setup() {
  DDRB |= 0x80;
  TCCR4A = 0;
  TCCR4B = _BV(WGM42) | _BV(CS41);
  OCR4A = 1999;
  OCR4B = 1999;
  TIMSK4 = _BV(OCIE4B);
}
void loop() {}
