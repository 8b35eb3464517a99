#pragma once
#include <avr/pgmspace.h>
#include <stdint.h>
struct Channel {
  volatile uint8_t *direction;
  uint8_t mask;
  volatile uint8_t *compare;
};
extern const Channel channels[2] PROGMEM;
extern const uint8_t curve[][3] PROGMEM;
extern const uint8_t clocks[];
