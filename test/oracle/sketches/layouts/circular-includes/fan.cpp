#include <Arduino.h>
#include "fan.h"
void Fan::begin(Probe *probe) { _probe = probe; analogWrite(3, _probe->limit()); }
void Fan::heat(uint8_t degrees) { analogWrite(3, degrees * 4 < _probe->limit() ? degrees * 4 : _probe->limit()); }
