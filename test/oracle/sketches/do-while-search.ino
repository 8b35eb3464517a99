// Looks for the first prescaler whose TOP fits.
const uint16_t divs[] = { 1, 8, 64, 256, 1024 };
void setup() {
  pinMode(9, OUTPUT);
  uint8_t i = 0;
  uint32_t top;
  do {
    top = F_CPU / (2UL * divs[i] * 20);
    i++;
  } while (top > 65535UL && i < 5);
  TCCR1A = _BV(COM1A1);
  TCCR1B = _BV(WGM13) | i;
  ICR1 = top;
  OCR1A = top >> 2;
}
void loop() {}
