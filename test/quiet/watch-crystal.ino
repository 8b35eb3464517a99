volatile unsigned long seconds;
ISR(TIMER2_OVF_vect) { seconds++; }
void setup() {
  ASSR = _BV(AS2);
  TCCR2A = 0;
  TCCR2B = _BV(CS22) | _BV(CS20);
  while (ASSR & (_BV(TCN2UB) | _BV(TCR2BUB) | _BV(TCR2AUB))) {}
  TIMSK2 = _BV(TOIE2);
}
void loop() {}
