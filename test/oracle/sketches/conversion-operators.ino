// Objects that turn into numbers.
class Level {
  uint8_t v;
  public:
  Level(uint8_t x = 0) : v(x) {}
  operator uint8_t() const {
    return v;
  }
  operator bool() const;
  Level &operator=(int n) {
    v = n;
    return *this;
  }
};
Level::operator bool() const {
  return v > 100;
}
struct Ptr {
  uint8_t *p;
  operator uint8_t *() const {
    return p;
  }
  uint8_t &operator*() const {
    return *p;
  }
};
uint8_t cell = 9;
void setup() {
  Level a(60), b = 120;
  if (a) OCR0A = 1;
  else OCR0A = 2;
  OCR0B = b ? 5 : 6;
  uint8_t n = b;
  OCR2A = n - (uint8_t)a;
  Ptr p = { &cell };
  *p = 11;
  uint8_t *q = p;
  OCR1A = *q + 0;
  a = 7;
  uint8_t m = a;
  OCR1B = m * 3;
}
void loop() {}
