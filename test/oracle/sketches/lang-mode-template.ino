// mode and prescaler as enum classes in a template, checked when compiled
enum class Prescale : uint8_t { stop = 0, by1 = 1, by8 = 2, by64 = 3, by256 = 4, by1024 = 5 };
enum class Mode : uint8_t { ctc = 0x4, fast8 = 0x5, phase10 = 0x3, fastIcr = 0xE };

constexpr uint8_t low(Mode m) { return static_cast<uint8_t>(m) & 3; }
constexpr uint8_t high(Mode m) { return (static_cast<uint8_t>(m) >> 2) << WGM12; }
constexpr uint8_t clk(Prescale p) { return static_cast<uint8_t>(p); }

template <Mode M, Prescale P> struct Timer1Setup {
  static void apply() {
    TCCR1B = 0;
    TCCR1A = low(M);
    TCCR1B = high(M) | clk(P);
  }
};
using Setup = Timer1Setup<Mode::fastIcr, Prescale::by8>;
static_assert(high(Mode::fastIcr) == (_BV(WGM13) | _BV(WGM12)), "mode bits");
void setup() {
  Setup::apply();
  ICR1 = 1999;
  DDRB |= 0b110;
  TCCR1A |= (1 << COM1A1) | (1 << COM1B1);
  OCR1A = 500; OCR1B = 1000;
}
void loop() {}
