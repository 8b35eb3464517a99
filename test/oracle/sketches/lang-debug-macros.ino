// assertions and logs that come to nothing, blocks with a value
#define DEBUG 0
#if DEBUG
#  define LOG(...) Serial.println(__VA_ARGS__)
#else
#  define LOG(...) do {} while (0)
#endif
#define ASSERT(c) do { if (!(c)) { LOG(F(#c)); for (;;) ; } } while (0)
#define MIN_(a, b) ({ __typeof__(a) _a = (a); __typeof__(b) _b = (b); _a < _b ? _a : _b; })
#define LIMIT(v, lo_, hi_) ((v) < (lo_) ? (lo_) : ((v) > (hi_) ? (hi_) : (v)))
uint16_t want = 900;
void setup() {
  uint8_t n = MIN_(want, 200);
  ASSERT(n == 200);
  pinMode(11, OUTPUT);
  TCCR2A = 0x83; TCCR2B = 0x04;
  OCR2A = LIMIT(n - 20, 0, 150);
}
void loop() {}
