// A servo's pulse from one compare interrupt: high for 1.5 ms of 20 ms.
volatile bool high = false;

ISR(TIMER1_COMPA_vect) {
  if (high) {
    PORTD &= ~_BV(PORTD6);
    OCR1A = 36999;
    high = false;
  } else {
    PORTD |= _BV(PORTD6);
    OCR1A = 2999;
    high = true;
  }
}

void setup() {
  DDRD |= _BV(DDD6);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 2999;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {
}
