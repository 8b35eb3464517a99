// A single pulse of 10 us on D9 for a flash, by timer 1 in a one-shot: set by force compare, cleared by the match.
void flash() {
  TCCR1B = 0;
  TCNT1 = 0;
  OCR1A = 20;
  TCCR1A = _BV(COM1A1) | _BV(COM1A0);
  TCCR1C = _BV(FOC1A);
  TCCR1A = _BV(COM1A1);
  TCCR1B = _BV(CS11);
}

void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = 0;
  TCCR1B = 0;
}

void loop() {
  flash();
  delay(100);
}
