void setup() { pinMode(5, OUTPUT); }

void loop() {
  int light = analogRead(A2);
  int level = (light - 100) / 3;
  if (level < 0) level = 0;
  if (level > 255) level = 255;
  analogWrite(5, level);
  delay(30);
}
