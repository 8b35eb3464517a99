void setup() {
  pinMode(5, OUTPUT);
  pinMode(6, OUTPUT);
}
void loop() {
  for (int i = 0; i < 256; i++) {
    analogWrite(5, i);
    analogWrite(6, 255 - i);
    delay(4);
  }
}
