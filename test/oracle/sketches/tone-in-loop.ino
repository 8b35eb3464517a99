void setup() {
  pinMode(3, OUTPUT);
}
void loop() {
  tone(8, 262);
  delay(15);
  tone(8, 330);
  delay(15);
  noTone(8);
  analogWrite(3, 100);
  delay(15);
}
