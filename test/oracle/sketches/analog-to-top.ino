// The knob sets the frequency.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
}
void loop() {
  OCR1A = 500 + analogRead(A0) * 4;
  delay(20);
}
