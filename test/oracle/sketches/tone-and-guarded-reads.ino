// A tone beside reads that hold interrupts off: the greenhouse's bell and its counter.
volatile unsigned int drops;
ISR(INT0_vect) { drops++; }
void setup() {
  EIMSK |= _BV(INT0);
  tone(8, 880);
}
void loop() {
  noInterrupts();
  unsigned int seen = drops;
  interrupts();
  analogWrite(5, seen & 127);
}
