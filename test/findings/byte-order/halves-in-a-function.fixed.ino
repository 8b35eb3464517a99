void setTop(uint16_t v) {
  ICR1H = v >> 8;
  ICR1L = v & 0xFF;
}
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  setTop(640);
  OCR1A = 100;
}
void loop() {}
