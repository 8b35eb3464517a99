// compare registers reached through byte pointers, high byte first
volatile uint8_t *const lo[] = { &OCR1AL, &OCR1BL, &ICR1L };
volatile uint8_t *const hi[] = { &OCR1AH, &OCR1BH, &ICR1H };
static void put(uint8_t which, uint16_t v) {
  *hi[which] = v >> 8;
  *lo[which] = v & 0xff;
}
void setup() {
  DDRB |= 6;
  TCCR1A = 0xA2;
  TCCR1B = 0x1A;
  put(2, 0x0FFF);
  put(0, 0x0400);
  put(1, 0x0A00);
}
void loop() {}
