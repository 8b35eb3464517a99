// Two lamps in turn.
void setup() {
  pinMode(7, OUTPUT);
  pinMode(8, OUTPUT);
}

void loop() {
  digitalWrite(7, HIGH);
  digitalWrite(8, LOW);
  delay(15);
  digitalWrite(7, LOW);
  digitalWrite(8, HIGH);
  delay(35);
}
