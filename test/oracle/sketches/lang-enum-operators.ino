// operators of enumerations: flags, steps to the next mode, masks
enum class Flag : uint8_t { none = 0, lamp = 1, fan = 4, pump = 16 };
constexpr Flag operator|(Flag a, Flag b) { return static_cast<Flag>(static_cast<uint8_t>(a) | static_cast<uint8_t>(b)); }
constexpr bool operator&(Flag a, Flag b) { return (uint8_t)a & (uint8_t)b; }
Flag operator~(Flag a) { return (Flag)~(uint8_t)a; }
Flag &operator|=(Flag &a, Flag b) { return a = a | b; }
enum Mode { OFF, LOW_, HIGH_, MODES };
Mode &operator++(Mode &m) { return m = Mode(((int)m + 1) % MODES); }
Mode operator++(Mode &m, int) { Mode old = m; ++m; return old; }
Mode operator+(Mode m, int n) { while (n--) ++m; return m; }
void setup() {
  DDRB |= 8; DDRD |= 0x68; TCCR2A = 0xA3; TCCR0A |= 0xA0;
  Flag f = Flag::lamp | Flag::pump;
  if (f & Flag::fan) OCR2A = 1; else OCR2A = (uint8_t)f;
  f |= Flag::fan;
  OCR2B = (uint8_t)f + (f & Flag::pump ? 100 : 0);
  Mode m = HIGH_;
  m++; ++m;
  OCR0A = m * 10 + (m + 4) + (LOW_ | 8);
  OCR0B = (uint8_t)~Flag::fan;
}
void loop() {}
