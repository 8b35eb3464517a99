uint16_t top = 2047;
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1H = highByte(top);
  ICR1L = lowByte(top);
  OCR1BH = (top / 4) >> 8;
  OCR1BL = (top / 4) & 0xFF;
}
void loop() {}
