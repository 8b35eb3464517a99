void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(WGM22) | _BV(CS22);
  OCR2A = 100;
  OCR2B = 50;
}
void loop() {
  for (byte top = 100; top < 200; top++) {
    OCR2A = top;
    OCR2B = top / 2;
    delay(20);
  }
}
