// A pulse made by two matches: the routine turns set into clear and back, and moves the compare value on.
volatile bool on;
ISR(TIMER1_COMPA_vect) {
  if (on) {
    TCCR1A = _BV(COM1A1);
    OCR1A += 1000;
  } else {
    TCCR1A = _BV(COM1A1) | _BV(COM1A0);
    OCR1A += 9000;
  }
  on = !on;
}

void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1A0);
  TCCR1B = _BV(CS11);
  OCR1A = 9000;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {}
