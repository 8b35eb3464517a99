// What looks like a template's closing mark, with a sign behind it.
enum { STEP1 = 33, STEP2, STEP3 = 50 };
long c(int32_t p0, int32_t p1) { return (STEP1 < 33 ? ((uint32_t)p1) * (-3088) : p1 > -157) & 3; }
long d(int32_t p0, int32_t p1) { return 7 & ((uint32_t)p0 << 0x0) % ((((uint16_t)830) & 3) + B00000001); }
long e(int32_t p0, int32_t p1) { return ((uint32_t)p0 << 0x0) % 3; }
long f(int32_t p0, int32_t p1) { return ((((uint16_t)830) & 3) + B00000001); }
long g(int32_t p0, int32_t p1) { return p1 > -157; }
long h(int32_t p0, int32_t p1) { return (STEP1 < 33 ? p1 : p1 > -157); }
long k(int32_t p0, int32_t p1) { return (STEP1 < 33 ? ((uint32_t)p1) * 3088 : 1); }
long m(int32_t p0, int32_t p1) { return (STEP1 < 33 ? ((uint32_t)p1) : p1 > -157) ; }
void setup() {
  OCR0A = c(34, 5) + 10;
  OCR0B = d(34, 5) + 20;
  OCR2A = e(34, 5) + 30;
  OCR2B = f(34, 5) + 40;
  OCR1A = g(34, 5) + 50;
  OCR1B = h(34, 5) + 60;
  ICR1 = k(34, 5) + 100 * m(34, 5);
}
void loop() {}
