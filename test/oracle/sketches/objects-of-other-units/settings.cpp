#include "fan.h"
Settings settings = {120, 9};
const uint16_t LEVELS[] = {100, 200, 300};
uint8_t spare;
uint16_t scaled(const Settings &from, uint16_t value) { return from.pin + value; }
