// By the core's functions, from a routine.
volatile bool lit = false;

ISR(TIMER1_COMPA_vect) {
  lit = !lit;
  digitalWrite(13, lit);
}

void setup() {
  pinMode(13, OUTPUT);
  noInterrupts();
  TCCR1A = 0;
  TCCR1B = 0;
  TCNT1 = 0;
  OCR1A = 15624;
  TCCR1B |= (1 << WGM12);
  TCCR1B |= (1 << CS12) | (1 << CS10);
  TIMSK1 |= (1 << OCIE1A);
  interrupts();
}

void loop() {
}
