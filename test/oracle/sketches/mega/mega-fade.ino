void setup() { pinMode(45, OUTPUT); }
void loop() {
  for (int v = 5; v < 250; v += 35) {
    analogWrite(45, v);
    delay(12);
  }
}
