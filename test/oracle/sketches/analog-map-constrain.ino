void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = 39999;
}
void loop() {
  int angle = map(analogRead(A0), 0, 1023, 1000, 2000);
  angle = constrain(angle, 1100, 1900);
  OCR1A = angle * 2;
  delay(25);
}
