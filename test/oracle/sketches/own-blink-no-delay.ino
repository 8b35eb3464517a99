unsigned long last = 0;
bool on = false;
void setup() {
  pinMode(12, OUTPUT);
  pinMode(3, OUTPUT);
  analogWrite(3, 44);
}
void loop() {
  if (millis() - last >= 10) {
    last = millis();
    on = !on;
    digitalWrite(12, on ? HIGH : LOW);
  }
}
