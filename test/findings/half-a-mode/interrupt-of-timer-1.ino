ISR(TIMER1_COMPA_vect) { PORTB ^= _BV(5); }
void setup() {
  pinMode(13, OUTPUT);
  TCCR1B |= (1 << WGM12);
  TCCR1B |= (1 << CS12) | (1 << CS10);
//= finding half-a-mode "Timer 1 runs in fast PWM with TOP 255, not in CTC with TOP OCR1A: the core's init left WGM10 set in TCCR1A"
//= fix "Write TCCR1A = 0 first"
//= finding kept-bits "TCCR1B still holds CS11, left by the core's init, so the timer counts pulses at pin PD5 and stands still witho"
  OCR1A = 15624;
//= finding mode-ignores-write "OCR1A = 15624 is stored as 8: while a mode with fixed TOP 255 is on, only these bits are kept"
  TIMSK1 |= (1 << OCIE1A);
}
void loop() {}
