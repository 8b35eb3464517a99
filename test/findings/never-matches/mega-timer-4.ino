// for pulsewright: board mega
ISR(TIMER4_COMPB_vect) { PORTB ^= 0x80; }
void setup() {
  DDRB |= 0x80;
  TCCR4A = 0;
  TCCR4B = _BV(WGM42) | _BV(CS41);
  OCR4A = 1999;
  OCR4B = 3000;
//= finding never-matches "OCR4B = 3000 lies above TOP 1999 (OCR4A), so the interrupt TIMER4_COMPB never comes"
//= fix "Write 1999, which is TOP"
  TIMSK4 = _BV(OCIE4B);
}
void loop() {}
