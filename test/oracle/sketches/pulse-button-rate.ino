// Fast or slow, as the button says.
void setup() {
  pinMode(2, INPUT_PULLUP);
  pinMode(8, OUTPUT);
}

void loop() {
  int pause = digitalRead(2) == LOW ? 4 : 16;
  digitalWrite(8, HIGH);
  delay(pause);
  digitalWrite(8, LOW);
  delay(pause);
}
