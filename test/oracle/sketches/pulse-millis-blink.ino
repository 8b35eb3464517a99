// Without delay.
unsigned long last = 0;
bool lit = false;

void setup() {
  pinMode(13, OUTPUT);
}

void loop() {
  if (millis() - last >= 20) {
    last = millis();
    lit = !lit;
    digitalWrite(13, lit);
  }
}
