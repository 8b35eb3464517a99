void setup() { pinMode(7, OUTPUT); }
void loop() {
  digitalWrite(7, (analogRead(A0) / 4) < 128 ? LOW : HIGH);
  delay(20);
}
