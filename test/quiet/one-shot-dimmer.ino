// Mains dimmer: fires a set time after each zero crossing.
volatile uint16_t wait = 8000;
void crossing() {
  TCNT1 = 0;
  OCR1A = wait;
  TIMSK1 |= _BV(OCIE1A);
}
ISR(TIMER1_COMPA_vect) {
  digitalWrite(4, HIGH);
  delayMicroseconds(20);
  digitalWrite(4, LOW);
  TIMSK1 &= ~_BV(OCIE1A);
}
void setup() {
  pinMode(4, OUTPUT);
  TCCR1A = 0;
  TCCR1B = _BV(CS11);
  attachInterrupt(digitalPinToInterrupt(2), crossing, RISING);
}
void loop() { wait = 1000 + 14 * (analogRead(A0) / 2); }
