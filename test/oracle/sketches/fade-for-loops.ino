const int lamp = 11;
void setup() {}
void loop() {
  for (int v = 0; v <= 255; v += 5) {
    analogWrite(lamp, v);
    delay(3);
  }
  for (int v = 255; v >= 0; v -= 5) {
    analogWrite(lamp, v);
    delay(3);
  }
}
