volatile uint8_t *const regs[] = { &OCR2A, &OCR2B };
void setup() {
  pinMode(3, OUTPUT);
  pinMode(11, OUTPUT);
  TCCR2A = 0xA3;
  for (uint8_t i = 0; i < 2; i++) *regs[i] = 50 + 100 * i;
}
void loop() {}
