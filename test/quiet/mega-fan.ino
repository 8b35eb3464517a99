// for pulsewright: board mega
void setup() {
  pinMode(6, OUTPUT);
  TCCR4A = _BV(COM4A1) | _BV(WGM41);
  TCCR4B = _BV(WGM43) | _BV(WGM42) | _BV(CS40);
  ICR4 = 639;
  OCR4A = 200;
}
void loop() {}
