// fixed point as a class
class Fix { int32_t v; public: constexpr Fix(int32_t raw, bool) : v(raw) {} constexpr Fix(int x = 0) : v((int32_t)x << 8) {} constexpr Fix(double d) : v(d * 256) {}
  friend Fix operator*(Fix a, Fix b) { return Fix((a.v * b.v) >> 8, true); } friend Fix operator+(Fix a, Fix b) { return Fix(a.v + b.v, true); }
  friend bool operator>(Fix a, Fix b) { return a.v > b.v; } int toInt() const { return v >> 8; } Fix &operator-=(Fix o) { v -= o.v; return *this; } };
void setup() {
  DDRB |= 6; TCCR1A = 0xA2; TCCR1B = 0x19; ICR1 = 1023;
  Fix a = 3.5, b(40), c = a * b + 2;
  OCR1A = c.toInt();
  while (c > Fix(10)) c -= a;
  OCR1B = (c * 100).toInt();
}
void loop() {}
