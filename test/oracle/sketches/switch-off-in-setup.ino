void setup() {
  analogWrite(3, 100);
  analogWrite(9, 100);
  TCCR2A = 0;
  TCCR1A &= ~(_BV(COM1A1) | _BV(COM1A0));
}
void loop() {}
