// The old way: reload in the overflow routine.
ISR(TIMER1_OVF_vect) {
  TCNT1 = 65536 - 2000;
  PORTB ^= 1 << PB4;
}
void setup() {
  DDRB |= 1 << PB4;
  TCCR1A = 0;
  TCCR1B = 1 << CS11;
  TCNT1 = 65536 - 2000;
  TIMSK1 = 1 << TOIE1;
}
void loop() {}
