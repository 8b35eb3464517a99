// references and unseen changes inside the value of a register write, choices as places
struct Level { uint8_t v, w; uint8_t up(uint8_t by) { v += by; return v; } };
Level a = { 10, 1 }, b = { 20, 2 };
uint8_t n = 5, m = 50;
bool first = true;
uint8_t bump(uint8_t &x, uint8_t by = 3) { return x += by; }
uint8_t &pick(bool c) { return c ? n : m; }
Level &which(bool c) { return c ? a : b; }
template <typename T> T take(T &x) { T old = x; x = 0; return old; }
void setup() {
  DDRB |= 8; DDRD |= 0x68;
  TCCR0A |= 0xA0; TCCR2A = 0xA3;
  OCR2A = bump(n) + 1;
  OCR2A = bump(first ? n : m);
  OCR2B = bump(pick(!first), 7);
  pick(true) += 100;
  which(false).w = 9;
  (first ? a : b).v = 44;
  Level &l = first ? b : a;
  l.v++;
  Level copy = first ? a : b;
  copy.v = 0;
  uint8_t *p = &(first ? n : m);
  ++*p;
  (first ? a : b).up(5);
  OCR0A = a.v + b.v + b.w;
  OCR0B = take(n) + n + (n ?: m);
}
void loop() {}
