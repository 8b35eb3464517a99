void setup() {
  pinMode(11, OUTPUT);
  // prescaler 64
  TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS22);
}
void loop() { analogWrite(11, 99); }
