void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 1000;
}
void loop() {
  for (uint16_t top = 1000; top < 3000; top += 10) {
    OCR1A = top;
    delay(2);
  }
}
