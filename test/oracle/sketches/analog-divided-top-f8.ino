void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | 3;
  OCR2A = 0xF8;
}
void loop() {
  int raw = analogRead(A1);
  analogWrite(3, raw / 4);
  delay(20);
}
