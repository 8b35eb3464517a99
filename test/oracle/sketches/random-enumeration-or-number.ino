// Overloads for an enumeration and for a number; a choice between two enumerators is one of them.
int32_t given = -72;
enum Level { LOW_LEVEL = 3, HIGH_LEVEL };
namespace Board {
enum class Speed : uint8_t { Slow = 5, Medium = 3, Fast = 2 };
inline void clock(Speed speed = Speed::Medium) {
  switch (speed) {
    case Speed::Slow: TCCR0B = (TCCR0B & 0xF8) | 5; break;
    default: TCCR0B = (TCCR0B & ~0x07) | (uint8_t)speed;
  }
}
inline void clock(int plain) { clock(plain > 3 ? Speed::Fast : Speed::Slow); }
}
void set(Level level) { OCR2A = level + 100; }
void set(long level) { OCR2A = level; }
void dim(Level level) { OCR2B = level; }
void setup() {
  Board::clock(Board::Speed::Medium);
  OCR0A = 1;
  delay(1);
  Board::clock(((uint32_t)(given ^ B10110100) & 3));
  set(HIGH_LEVEL);
  delay(5);
  set(HIGH_LEVEL + 1);
  dim((Level)7);
}
void loop() {}
