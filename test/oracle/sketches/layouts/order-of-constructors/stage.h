#pragma once
#include <Arduino.h>
extern uint16_t trail;
extern uint8_t base;
struct Stage {
  Stage(uint8_t number, const uint8_t *add) { trail = trail * 3 + number * *add; }
};
