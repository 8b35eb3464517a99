volatile uint32_t overflows;
volatile uint16_t edge;
ISR(TIMER1_OVF_vect) { overflows++; }
ISR(TIMER1_CAPT_vect) {
  edge = ICR1;
  TCCR1B ^= _BV(ICES1);
}
void setup() {
  TCCR1A = 0;
  TCCR1B = _BV(ICNC1) | _BV(ICES1) | _BV(CS10);
  TIMSK1 = _BV(ICIE1) | _BV(TOIE1);
}
void loop() {}
