void setup() {
  pinMode(5, OUTPUT);
  TCCR3A = _BV(COM3A1) | _BV(WGM31);
  TCCR3B = _BV(WGM33) | _BV(CS30);
  ICR3 = 320;
  OCR3A = 100;
}
void loop() {}
