void setup() { pinMode(9, OUTPUT); }
void loop() {
  analogWrite(9, 90);
  tone(8, 880, 200);
  delay(1000);
}
