// TOP and duty out of one input.
void setup() { pinMode(3, OUTPUT); TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20); TCCR2B = _BV(CS22) | _BV(WGM22); }
void loop() {
  int knob = analogRead(A0);
  byte top = map(knob, 0, 1023, 99, 249);
  OCR2A = top;
  OCR2B = top / 2;
  delay(10);
}
