void setup() {
  analogWrite(9, 100);
  tone(30, 2000);
}
void loop() {}
