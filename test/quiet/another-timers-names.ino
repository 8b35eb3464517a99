// CS10 names the same bit as CS20: it compiles and does what it says.
void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = (TCCR2B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS10);
}
void loop() { analogWrite(3, 50); }
