void setup() {}
void loop() {
  int level = map(analogRead(A0), 0, 1023, 0, 255);
  level = constrain(level, 20, 230);
  analogWrite(11, level);
}
