// Long and short in turn, by a new TOP each time.
volatile bool longer = false;

ISR(TIMER1_COMPA_vect) {
  longer = !longer;
  if (longer) {
    PORTB |= _BV(PORTB5);
    OCR1A = 2999;
  } else {
    PORTB &= ~_BV(PORTB5);
    OCR1A = 999;
  }
}

void setup() {
  DDRB |= _BV(DDB5);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 999;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {
}
