// The main program holds interrupts off for a while.
volatile unsigned int ticks = 0;
unsigned int seen;

ISR(TIMER1_COMPA_vect) {
  ticks++;
  PINB = _BV(PINB0);
}

void setup() {
  DDRB |= _BV(DDB0);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 1999;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {
  noInterrupts();
  seen = ticks;
  delayMicroseconds(30);
  interrupts();
  delay(2);
}
