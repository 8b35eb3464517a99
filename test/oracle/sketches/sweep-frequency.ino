void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
}
void loop() {
  for (unsigned int top = 1000; top <= 2000; top += 100) {
    OCR1A = top;
    delay(8);
  }
}
