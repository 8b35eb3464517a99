void setup() {
  TCCR1A = _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = 1023;
  analogWrite(9, 512);
  analogWrite(10, 255);
}
void loop() {}
