// overloads, default arguments and nested namespaces
namespace pwm {
  namespace detail {
    inline void com(uint8_t pin, bool on) {
      if (pin == 9) { if (on) TCCR1A |= 0x80; else TCCR1A &= ~0x80; }
      else if (pin == 10) { if (on) TCCR1A |= 0x20; else TCCR1A &= ~0x20; }
    }
  }
  void duty(uint8_t pin, uint16_t v, bool attach = true) {
    (pin == 9 ? OCR1A : OCR1B) = v;
    detail::com(pin, attach);
  }
  void duty(uint8_t pin, float part) { duty(pin, (uint16_t)(ICR1 * part)); }
  void top(uint16_t t, uint8_t cs = _BV(CS10)) { ICR1 = t; TCCR1A = 2; TCCR1B = 0x18 | cs; }
}
void setup() {
  using namespace pwm;
  DDRB |= 6;
  top(1000);
  duty(9, 0.25f);
  duty(10, (uint16_t)300, false);
}
void loop() {}
