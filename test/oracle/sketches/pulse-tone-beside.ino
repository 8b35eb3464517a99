// A tone plays while another pin blinks.
void setup() {
  pinMode(4, OUTPUT);
  tone(8, 1000);
}

void loop() {
  digitalWrite(4, HIGH);
  delay(4);
  digitalWrite(4, LOW);
  delay(12);
}
