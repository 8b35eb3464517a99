// constrain is a macro: it reads more than once.
void setup() {
  pinMode(5, OUTPUT);
}
void loop() {
  int v = constrain(analogRead(0) / 4, 26, 245);
  analogWrite(5, v);
  delay(10);
}
