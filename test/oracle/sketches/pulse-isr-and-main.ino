// A routine blinks one lamp, the main program another.
ISR(TIMER1_COMPA_vect) {
  PINB = _BV(PINB0);
}

void setup() {
  DDRB |= _BV(DDB0);
  pinMode(7, OUTPUT);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 999;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {
  digitalWrite(7, HIGH);
  delay(3);
  digitalWrite(7, LOW);
  delay(5);
}
