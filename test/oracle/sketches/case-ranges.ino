// Pump speeds by ranges of the dial.
byte speedOf(int v) {
  switch (v) {
    case 0 ... 99: return 0;
    case 100 ... 499: return 60;
    case 500 ... 899: return 150;
    default: return 255;
  }
}
void setup() {
  pinMode(5, OUTPUT);
}
void loop() {
  analogWrite(5, speedOf(analogRead(A3)));
  delay(10);
}
