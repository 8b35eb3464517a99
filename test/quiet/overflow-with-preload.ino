const unsigned int preload = 65536 - 62500;
ISR(TIMER1_OVF_vect) {
  TCNT1 = preload;
  digitalWrite(8, digitalRead(8) ^ 1);
}
void setup() {
  pinMode(8, OUTPUT);
  noInterrupts();
  TCCR1A = 0;
  TCCR1B = 0;
  TCNT1 = preload;
  TCCR1B |= (1 << CS12);
  TIMSK1 |= (1 << TOIE1);
  interrupts();
}
void loop() {}
