// One shot on D9 in CTC: set by a forced match, cleared by the real one; the routine arms it again.
ISR(TIMER1_OVF_vect) {
  TCCR1A = _BV(COM1A1) | _BV(COM1A0);
  TCCR1C = _BV(FOC1A);
  TCCR1A = _BV(COM1A1);
}

void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1);
  TCCR1B = _BV(CS11);
  OCR1A = 3000;
  TIMSK1 = _BV(TOIE1);
}

void loop() {}
