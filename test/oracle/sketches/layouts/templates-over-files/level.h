#pragma once
#include <stdint.h>
template <uint8_t MOST> class Level {
public:
  void set(uint8_t value);
  uint8_t get() const { return _value; }
  static uint8_t changes;
private:
  uint8_t _value = 0;
};
template <uint8_t MOST> uint8_t Level<MOST>::changes = 0;
template <uint8_t MOST> void Level<MOST>::set(uint8_t value) {
  _value = value > MOST ? MOST : value;
  changes++;
}
