// A beacon's timer in free running: the routine moves its own compare value on; setup writes the first one last.
ISR(TIMER1_COMPA_vect) {
  OCR1A += 40000;
  PINB = _BV(PB5);
}

void setup() {
  pinMode(13, OUTPUT);
  TCCR1A = 0;
  TCCR1B = _BV(CS11) | _BV(CS10);
  TIMSK1 = _BV(OCIE1A);
  OCR1A = 40000;
}

void loop() {}
