void setup() {
  pinMode(13, OUTPUT);
  TCCR1A |= _BV(COM1C1);
  OCR1C = 55;
}
void loop() {}
