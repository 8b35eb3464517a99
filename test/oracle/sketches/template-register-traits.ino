// One class for the lamps, the timer's registers chosen by traits.
template <uint8_t N> struct TimerRegs {};
template <> struct TimerRegs<0> {
  static volatile uint8_t &a() {
    return TCCR0A;
  }
  static volatile uint8_t &ocr() {
    return OCR0B;
  }
  static const uint8_t com = COM0B1, pin = 5;
};
template <> struct TimerRegs<2> {
  static volatile uint8_t &a() {
    return TCCR2A;
  }
  static volatile uint8_t &ocr() {
    return OCR2B;
  }
  static const uint8_t com = COM2B1, pin = 3;
};
template <uint8_t N> class Channel : TimerRegs<N> {
  typedef TimerRegs<N> R;
  public:
  void begin() {
    pinMode(R::pin, OUTPUT);
    R::a() |= 1 << R::com;
  }
  void operator=(uint8_t v) {
    R::ocr() = v;
  }
  operator uint8_t() const {
    return R::ocr();
  }
};
Channel<0> slow;
Channel<2> fast;
void setup() {
  slow.begin();
  fast.begin();
  slow = 60;
  fast = slow + 5;
}
void loop() {}
