// operators of a duty class, registers behind references
class Duty {
  uint8_t v;
 public:
  constexpr Duty(uint8_t x = 0) : v(x) {}
  Duty operator+(Duty o) const { return Duty(v + o.v); }
  Duty &operator+=(uint8_t n) { v = v + n > 255 ? 255 : v + n; return *this; }
  Duty operator++(int) { Duty d = *this; ++v; return d; }
  bool operator<(const Duty &o) const { return v < o.v; }
  operator uint8_t() const { return v; }
  friend Duty operator*(uint8_t k, Duty d) { return Duty(k * d.v); }
};
struct Channel { volatile uint8_t &r; Channel &operator=(Duty d) { r = d; return *this; } };
Channel a{OCR2A}, b{OCR2B};
void setup() {
  DDRB |= 8; DDRD |= 8; TCCR2A = 0xA1; TCCR2B = 2;
  Duty d = 30;
  d += 250;
  a = d++;
  Duty e = 3 * Duty(20) + Duty(7);
  if (e < d) e += 1;
  b = e;
}
void loop() {}
