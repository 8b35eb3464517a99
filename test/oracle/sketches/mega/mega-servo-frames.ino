volatile uint16_t *const duty[3] = { &OCR5A, &OCR5B, &OCR5C };
void setup() {
  DDRL |= 0x38;
  TCCR5A = 0b10101010;
  TCCR5B = 0b00011010;
  ICR5 = 39999;
  for (uint8_t i = 0; i < 3; i++) *duty[i] = 2000 + 1000 * i;
}
void loop() {}
