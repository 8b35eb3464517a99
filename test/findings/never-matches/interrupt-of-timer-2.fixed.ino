volatile unsigned int ticks;
ISR(TIMER2_COMPB_vect) { ticks++; }
void setup() {
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 124;
  OCR2B = 124;
  TIMSK2 = _BV(OCIE2B);
}
void loop() {}
