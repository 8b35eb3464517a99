// Several settled states on the way.
void setup() {
  pinMode(9, OUTPUT);
  analogWrite(9, 255);
  delay(30);
  analogWrite(9, 180);
  delay(30);
  TCCR1B = (TCCR1B & 0xF8) | 1;
  delay(30);
  analogWrite(9, 90);
}
void loop() {}
