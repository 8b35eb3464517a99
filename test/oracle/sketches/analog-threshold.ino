void setup() {
  pinMode(9, OUTPUT);
}
void loop() {
  int moisture = analogRead(A2);
  if (moisture > 700) {
    analogWrite(9, 0);
  } else if (moisture > 300) {
    analogWrite(9, 100);
  } else {
    analogWrite(9, 255);
  }
  delay(15);
}
