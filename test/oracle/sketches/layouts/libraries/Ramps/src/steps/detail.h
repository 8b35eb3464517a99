#pragma once
#include <Arduino.h>
namespace detail {
struct Pin {
  explicit Pin(uint8_t number) : number(number) {}
  uint8_t number;
};
}
