// Ten pulses, then a rest.
void setup() {
  pinMode(5, OUTPUT);
}

void loop() {
  for (byte i = 0; i < 10; i++) {
    digitalWrite(5, HIGH);
    delayMicroseconds(300);
    digitalWrite(5, LOW);
    delayMicroseconds(700);
  }
  delay(30);
}
