// Waits of minutes, in long arithmetic.
const unsigned long MINUTE = 60UL * 1000;

void setup() { pinMode(6, OUTPUT); }

void loop() {
  analogWrite(6, 90);
  delay(5 * MINUTE);
  analogWrite(6, 0);
  delay(10L * 60 * 1000);
}
