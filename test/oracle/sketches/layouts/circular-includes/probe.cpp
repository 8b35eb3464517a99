#include "probe.h"
void Probe::report(uint8_t degrees) { _fan.heat(degrees); }
