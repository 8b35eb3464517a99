void setup() {
  ASSR |= _BV(AS2);
  TCCR2A = 0;
  TCCR2B = _BV(CS22) | _BV(CS20);
  pinMode(9, OUTPUT);
  analogWrite(9, 70);
}
void loop() {}
