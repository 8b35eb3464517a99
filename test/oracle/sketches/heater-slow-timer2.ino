// Slow PWM for a propagation mat.
int matPin = 3;
void setup() {
  pinMode(matPin, OUTPUT);
  TCCR2B = TCCR2B & 0b11111000 | 0x07;
}
void loop() {
  analogWrite(matPin, 40);
  delay(50);
}
