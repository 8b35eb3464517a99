// WGM22 alone: TOP comes from OCR2A, which nobody wrote.
void setup() {
  pinMode(3, OUTPUT);
  TCCR2B |= _BV(WGM22);
  analogWrite(3, 100);
}
void loop() {}
