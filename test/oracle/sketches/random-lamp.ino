void setup() {
  randomSeed(analogRead(A5));
}
void loop() {
  analogWrite(6, random(40, 200));
  delay(9);
}
