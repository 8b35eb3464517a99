// Names of namespaces brought in one by one, and under another name.
namespace hw {
  namespace t2 {
    inline void prescale(uint8_t v) {
      TCCR2B = (TCCR2B & 0xF8) | v;
    }
    const uint8_t fastest = 1;
  }
  enum Level { LOW_LEVEL = 20, HIGH_LEVEL = 220 };
}
using hw::t2::prescale;
using namespace hw::t2;
namespace alias = hw;
void setup() {
  pinMode(3, OUTPUT);
  prescale(fastest);
  analogWrite(3, alias::HIGH_LEVEL);
}
void loop() {}
