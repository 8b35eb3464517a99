// closures kept in templates, captured by reference and by value
template <typename F> struct Timer { F f; uint16_t every; void run(uint16_t t) { if (t % every == 0) f(t); } };
template <typename F> Timer<F> makeTimer(uint16_t every, F f) { return Timer<F>{ f, every }; }
void setup() {
  DDRD |= 0x68; TCCR0A |= 0xA0; TCCR2A = 0x23;
  uint8_t total = 0, calls = 0;
  auto t = makeTimer(3, [&](uint16_t n) { total += n; calls++; });
  auto doubled = [total](uint8_t x) mutable -> uint8_t { total += x; return total * 2; };
  for (uint16_t i = 1; i <= 10; i++) t.run(i);
  OCR0A = total;
  OCR0B = doubled(5) + doubled(1);
  OCR2B = [](uint8_t a, uint8_t b) { return a > b ? a : b; }(calls * 20, 50);
}
void loop() {}
