// in which order calls in one expression are made: arguments, objects, operators, assignments
struct Log { uint16_t v; Log &go(uint8_t d) { v = v * 3 + d; return *this; } Log &operator<<(uint8_t d) { return go(d); } };
Log s;
uint16_t order;
uint8_t e(uint8_t d) { order = order * 3 + d; return d; }
Log &logs(uint8_t d) { e(d); return s; }
uint8_t cells[4];
uint8_t &cell(uint8_t d) { e(d); return cells[d]; }
uint8_t sum(uint8_t a, uint8_t b, uint8_t c = 0) { return a + b + c; }
struct Pair { uint8_t a, b; Pair(uint8_t x, uint8_t y) : a(x), b(y) {} };
static uint16_t taken() { uint16_t t = order; order = 0; return t; }
void setup() {
  DDRB |= 6; TCCR1A = 0xA2; TCCR1B = 0x19; ICR1 = 0x3FFF;
  sum(e(0), e(1), e(2));
  OCR1A = taken();
  logs(1) << e(2) << e(0);
  OCR1A += taken() + s.v;
  cell(1) = e(2); OCR1A += taken();
  cell(2) += e(1); OCR1A += taken();
  Pair p(e(1), e(2)), q{ e(1), e(2) };
  OCR1B = taken() + p.a + q.b;
  cells[e(1)] += e(2); OCR1B += taken();
  uint8_t (*f)(uint8_t, uint8_t, uint8_t) = sum;
  OCR1B += f(e(2), e(1), e(0)) * 100 + taken();
  uint8_t i = 0; cells[i++] += 5; cells[i++] <<= 1; *(cells + i++) |= 0x10;
  OCR1B += cells[0] * i + cells[2];
}
void loop() {}
