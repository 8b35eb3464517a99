volatile unsigned int ticks;
ISR(TIMER2_COMPB_vect) { ticks++; }
void setup() {
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 124;
  OCR2B = 200;
//= finding never-matches "OCR2B = 200 lies above TOP 124 (OCR2A), so the interrupt TIMER2_COMPB never comes"
//= fix "Write 124, which is TOP"
  TIMSK2 = _BV(OCIE2B);
}
void loop() {}
