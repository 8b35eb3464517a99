#pragma once
#include <Arduino.h>
class Lamp {
  public:
    void begin(uint8_t prescaler);
    void level(uint8_t value);
};
