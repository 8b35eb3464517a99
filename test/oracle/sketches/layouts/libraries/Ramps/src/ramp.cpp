#include "steps/ramp.h"
void Ramp::begin() { to(10); }
void Ramp::to(uint8_t level) { analogWrite(number, level); }
