// The slip: OR and AND the other way round.
void setup() {
  pinMode(3, OUTPUT);
  TCCR2B = TCCR2B | 3 & 0xFB;
  analogWrite(3, 128);
}
void loop() {}
