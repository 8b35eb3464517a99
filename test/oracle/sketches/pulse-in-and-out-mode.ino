// Output for a while, input for a while, and switched in between.
void setup() {
}

void loop() {
  pinMode(7, OUTPUT);
  digitalWrite(7, HIGH);
  delay(1);
  digitalWrite(7, LOW);
  delay(2);
  digitalWrite(7, HIGH);
  delay(1);
  digitalWrite(7, LOW);
  pinMode(7, INPUT);
  delay(3);
}
