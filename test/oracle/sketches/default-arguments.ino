void wave(uint16_t top, uint16_t duty = 100, uint8_t cs = 1) {
  ICR1 = top;
  OCR1A = duty;
  TCCR1A = _BV(COM1A1);
  TCCR1B = _BV(WGM13) | cs;
}
void setup() {
  pinMode(9, OUTPUT);
  wave(500);
  delay(10);
  wave(500, 250, 2);
}
void loop() {}
