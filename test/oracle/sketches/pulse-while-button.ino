// As long as the button is held the lamp waits.
void setup() {
  pinMode(2, INPUT_PULLUP);
  pinMode(8, OUTPUT);
}

void loop() {
  digitalWrite(8, HIGH);
  delay(3);
  digitalWrite(8, LOW);
  while (digitalRead(2) == LOW) {
    delay(1);
  }
  delay(3);
}
