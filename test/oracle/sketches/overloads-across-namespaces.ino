// An overload that a using directive brings, constants as template arguments, a body of empty blocks.
static const int five = 5;
const byte four = 4;
enum { SIX = 6 };
template <int N> uint8_t times() { return N * 2; }
template <> uint8_t times<5>() { return 77; }
template <typename T, int N> class Ring { public: static uint8_t count; };
template <typename T, int N> uint8_t Ring<T, N>::count = 7;
namespace lamps { void level(byte pin, int value) { analogWrite(pin, value); } }
using namespace lamps;
void level(byte pin, float part) { analogWrite(pin, (int)(part * 255)); }
void setup() {
  OCR2B = times<five>() + times<SIX>();
  Ring<uint8_t, 4>::count = 9;
  OCR2A = Ring<uint8_t, four>::count;
  level(9, 100);
  level(10, 0.5f);
}
void loop() { {} { {} } }
