ISR(TIMER1_COMPA_vect) { PORTB ^= _BV(5); }
void setup() {
  pinMode(13, OUTPUT);
  TCCR1A = 0;
  TCCR1B |= (1 << WGM12);
  TCCR1B |= (1 << CS12) | (1 << CS10);
//= finding kept-bits "TCCR1B still holds CS11, left by the core's init, so the timer counts pulses at pin PD5 and stands still witho"
  OCR1A = 15624;
  TIMSK1 |= (1 << OCIE1A);
}
void loop() {}
