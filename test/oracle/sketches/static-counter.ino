void setup() { pinMode(9, OUTPUT); }
void loop() {
  static byte n = 0;
  n++;
  if (n > 5) n = 0;
  analogWrite(9, 10 + n * 40);
  delay(10);
}
