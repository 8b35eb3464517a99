void setup() {
  analogWrite(10, 100);
  delay(5);
  int x = digitalRead(10);
  if (x > 5) analogWrite(9, 1);
}
void loop() {}
