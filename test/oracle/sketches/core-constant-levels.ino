void setup() {
  analogWrite(3, 0);
  analogWrite(5, 255);
  analogWrite(6, 256);
  analogWrite(9, 300);
  analogWrite(10, -1);
  analogWrite(11, 254);
  analogWrite(4, 200);
  analogWrite(7, 20);
}
void loop() {}
