#pragma once
#include <Arduino.h>
namespace pump {
const uint8_t PIN = 3;
enum class LEVELS : uint8_t { OFF, QUARTER = 64, HALF = 128 };
constexpr LEVELS QUARTER = LEVELS::QUARTER;
extern uint8_t started;
void begin();
void set(LEVELS level);
namespace detail { void put(uint8_t value); }
}
