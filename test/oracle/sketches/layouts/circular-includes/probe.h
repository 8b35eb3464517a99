#ifndef PROBE_H
#define PROBE_H
#include "fan.h"
#include <stdint.h>
class Fan;
class Probe {
public:
  Probe(Fan &fan) : _fan(fan) {}
  void report(uint8_t degrees);
  uint8_t limit() const { return 200; }
private:
  Fan &_fan;
};
#endif
