const int top = 250;
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS21);
  OCR2A = top;
}
void loop() { int v = analogRead(A0) / 4; analogWrite(3, map(v, 0, 255, 0, top)); delay(5); }
