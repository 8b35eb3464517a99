// The pause grows turn by turn and starts again.
int pause = 1;

void setup() {
  pinMode(12, OUTPUT);
}

void loop() {
  digitalWrite(12, HIGH);
  delay(2);
  digitalWrite(12, LOW);
  delay(pause);
  pause++;
  if (pause > 12) pause = 1;
}
