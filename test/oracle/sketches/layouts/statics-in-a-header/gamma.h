#pragma once
#include <Arduino.h>
static uint8_t gammaShift = 0;
static const uint8_t GAMMA[] PROGMEM = {0, 8, 40, 128};
static uint8_t corrected(uint8_t index) { return pgm_read_byte(&GAMMA[index]) >> gammaShift; }
