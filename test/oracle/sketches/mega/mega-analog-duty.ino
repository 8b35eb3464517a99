void setup() { pinMode(8, OUTPUT); }
void loop() {
  analogWrite(8, map(analogRead(A8), 0, 1023, 20, 230));
  delay(10);
}
