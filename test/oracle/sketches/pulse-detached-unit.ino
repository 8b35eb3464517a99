// A timer's pin, switched by hand.
void setup() {
  analogWrite(9, 100);
  digitalWrite(9, LOW);
}

void loop() {
  digitalWrite(9, HIGH);
  delay(2);
  digitalWrite(9, LOW);
  delay(6);
}
