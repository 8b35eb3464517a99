// Types that live in a function.
void setup() {
  enum { SLOW = 7, QUICK = 1 };
  struct Pair {
    uint8_t reg;
    uint8_t val;
  };
  typedef uint8_t duty_t;
  using wide = uint16_t;
  const Pair list[] = { { 0, 30 }, { 1, 90 } };
  for (const Pair &p : list) {
    if (p.reg) OCR2B = p.val;
    else OCR2A = p.val;
  }
  wide w = 300;
  duty_t d = w;
  OCR0A = d;
  TCCR2B = (TCCR2B & ~7) | QUICK;
  TCCR2A |= _BV(COM2A1) | _BV(COM2B1);
  pinMode(3, OUTPUT);
  pinMode(11, OUTPUT);
}
void loop() {}
