unsigned long before = 0;
bool on = false;
void setup() { pinMode(13, OUTPUT); }
void loop() {
  unsigned long now = millis();
  if (now - before >= 1000UL) {
    before = now;
    on = !on;
    digitalWrite(13, on);
  }
}
