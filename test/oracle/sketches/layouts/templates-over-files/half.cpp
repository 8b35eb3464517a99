#include "level.h"
uint8_t half(Level<100> level) {
  Level<100> other;
  other.set(level.get() / 2);
  return other.get();
}
