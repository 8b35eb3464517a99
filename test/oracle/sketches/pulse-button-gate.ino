// Only while the button is held.
void setup() {
  pinMode(2, INPUT_PULLUP);
  pinMode(8, OUTPUT);
}

void loop() {
  if (digitalRead(2) == LOW) {
    digitalWrite(8, HIGH);
    delay(2);
    digitalWrite(8, LOW);
  }
  delay(2);
}
