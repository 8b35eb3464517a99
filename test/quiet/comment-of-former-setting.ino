// The comment tells what the core had chosen before.
void setup() {
  pinMode(3, OUTPUT);
  // was 490 Hz with prescaler 64
  TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS20);
}

void loop() { analogWrite(3, 100); }
