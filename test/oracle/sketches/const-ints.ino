const int lampPin = 6;
const int startLevel = 3;
const byte stepSize = 50;
void setup() {
  int level = startLevel;
  for (int i = 0; i < 4; i++) level += stepSize;
  analogWrite(lampPin, level);
}
void loop() {}
