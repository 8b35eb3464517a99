void setup() {
  pinMode(6, OUTPUT);
}
void loop() {
  analogWrite(6, 200);
  delay(500);
  analogWrite(6, 20);
  delay(500);
}
