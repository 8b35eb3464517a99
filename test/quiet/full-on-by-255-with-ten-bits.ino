// 255 means fully on, and this sketch means it: the other values are a few settings.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
}

void loop() {
  analogWrite(9, 100);
  delay(1000);
  analogWrite(9, 255);
  delay(1000);
  analogWrite(9, 0);
  delay(1000);
}
