// Waits by micros.
void setup() {
  pinMode(13, OUTPUT);
}

void hold(unsigned long us) {
  unsigned long from = micros();
  while (micros() - from < us) {
  }
}

void loop() {
  digitalWrite(13, HIGH);
  hold(400);
  digitalWrite(13, LOW);
  hold(600);
}
