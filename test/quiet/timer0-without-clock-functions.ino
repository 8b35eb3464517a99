// Nothing here asks for the time: timer 0 may run as fast as it likes.
void setup() {
  pinMode(6, OUTPUT);
  TCCR0B = (TCCR0B & ~(_BV(CS02) | _BV(CS01) | _BV(CS00))) | _BV(CS00);
}
void loop() { analogWrite(6, analogRead(A0) / 4); }
