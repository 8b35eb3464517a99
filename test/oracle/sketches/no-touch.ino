// Nothing but the core.
void setup() {
  analogWrite(3, 64);
  analogWrite(5, 128);
  analogWrite(6, 192);
  analogWrite(9, 10);
  analogWrite(10, 250);
  analogWrite(11, 1);
}
void loop() {}
