// an object made at its first use by a class template's static
template <class T> class Singleton {
 public:
  static T &instance() { static T it; return it; }
};
class Chiller : public Singleton<Chiller> {
  friend class Singleton<Chiller>;
  Chiller() { TCCR2A = 0x23; TCCR2B = 0x0A; OCR2A = 199; }
 public:
  void run(uint8_t d) { OCR2B = d; DDRD |= 8; }
};
void setup() {
  Chiller::instance().run(50);
}
void loop() { Chiller::instance().run(100); delay(1); }
