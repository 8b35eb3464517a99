// The pause comes from a knob.
void setup() {
  pinMode(4, OUTPUT);
}

void loop() {
  digitalWrite(4, HIGH);
  delay(10);
  digitalWrite(4, LOW);
  delay(10 + analogRead(A1) / 16);
}
