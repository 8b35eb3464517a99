#pragma once
#include <stdint.h>
class Panel {
public:
  static Panel &only();
  void brightness(uint8_t level);
  uint8_t last() const { return _last < 90 ? _last : 90; }
  static uint8_t made;
  Panel(const Panel &) = delete;
private:
  Panel();
  uint8_t _last = 0;
};
