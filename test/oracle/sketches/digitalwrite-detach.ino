void setup() {
  analogWrite(10, 100);
  delay(5);
  digitalWrite(10, HIGH);
}
void loop() {}
