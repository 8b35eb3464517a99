uint8_t f(const uint8_t *d, uint8_t n) { uint8_t s = 0; while (n--) { s += *d++; } return s; }
const uint8_t m[] = { 1, 2, 3, 4, 5 };
uint8_t s[4] = { 11, 22, 33, 44 }, d[4];
void setup() { OCR2A = f(m, sizeof m); memset(d, 7, 4); memcpy(d + 1, s + 1, 2); OCR1A = d[0]; OCR1B = d[1]; }
void loop() { delay(5); }
