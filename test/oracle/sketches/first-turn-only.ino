bool started = false;
void setup() { pinMode(11, OUTPUT); }
void loop() {
  if (!started) {
    TCCR2B = (TCCR2B & 0xF8) | 2;
    analogWrite(11, 20);
    delay(30);
    analogWrite(11, 120);
    started = true;
  }
  delay(10);
}
