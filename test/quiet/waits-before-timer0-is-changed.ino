void setup() {
  delay(500);
  TCCR0B = (TCCR0B & ~(_BV(CS02) | _BV(CS01) | _BV(CS00))) | _BV(CS00);
}
void loop() { analogWrite(6, analogRead(A0) / 4); }
