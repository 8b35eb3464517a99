#pragma once
#include "detail.h"
class Ramp : private detail::Pin {
public:
  using detail::Pin::Pin;
  void begin();
  void to(uint8_t level);
};
