// Free running counter, the next match is set from the last one.
ISR(TIMER1_COMPA_vect) {
  OCR1A += 5000;
  PORTD ^= _BV(PD7);
}
void setup() {
  DDRD |= _BV(PD7);
  TCCR1A = 0;
  TCCR1B = (1 << CS11);
  OCR1A = 5000;
  TIMSK1 |= (1 << OCIE1A);
}
void loop() {}
