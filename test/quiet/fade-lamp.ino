const int lamp = 9;
void setup() { pinMode(lamp, OUTPUT); }
void loop() {
  for (int level = 0; level <= 255; level++) {
    analogWrite(lamp, level);
    delay(8);
  }
  for (int level = 255; level >= 0; level--) {
    analogWrite(lamp, level);
    delay(8);
  }
}
