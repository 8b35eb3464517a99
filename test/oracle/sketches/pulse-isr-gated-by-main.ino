// The main program says whether the routine may.
volatile bool wanted = false;

ISR(TIMER1_COMPA_vect) {
  if (wanted) PINB = _BV(PINB0);
}

void setup() {
  pinMode(2, INPUT_PULLUP);
  DDRB |= _BV(DDB0);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 1999;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {
  wanted = digitalRead(2);
}
