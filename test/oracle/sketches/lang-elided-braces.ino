// lists that leave out inner braces, and bytes of numbers by pointers
struct P { uint8_t x, y[2]; };
struct Q { P p; uint16_t w; };
P make(uint8_t v) { P p = { v, { 1, 2 } }; return p; }
const uint8_t grid[3][2] = { 1, 2, 3, 4, 5 };
P list[] = { 10, 11, 12, { 20, { 21 } }, 30 };
Q q = { 1, 2, 3, 0x1234 };
const char words[][4] = { "abc", "de" };
void setup() {
  DDRB |= 0x0E; DDRD |= 0x68; TCCR0A |= 0xA0; TCCR2A = 0xA3; TCCR1A = 0xA1;
  P two[2] = { make(7), 8, 9 };
  OCR0A = grid[1][1] * 10 + grid[2][0] + grid[2][1];
  OCR0B = sizeof(list) / sizeof(P) * 10 + list[0].y[1] + list[1].y[0] + list[2].x;
  OCR2A = q.p.y[1] + (q.w >> 8) + words[1][1];
  OCR2B = two[0].y[1] + two[1].x + two[1].y[0];
  uint16_t w = 0xABCD; uint32_t l = 0x01020304;
  OCR1AL = ((uint8_t *)&w)[1];
  ((uint8_t *)&l)[2] = 0x55;
  *(uint8_t *)&w = 0x11;
  OCR1BL = (l >> 16) - (w & 0x0F);
  int (*row)[2];
  int m[2][2] = { { 1, 2 }, { 3, 4 } };
  row = m + 1;
  OCR2B += (*row)[1] * 10;
}
void loop() {}
