#ifndef FAN_H
#define FAN_H
#include <stdint.h>
#include "probe.h"
class Probe;
class Fan {
public:
  void begin(Probe *probe);
  void heat(uint8_t degrees);
private:
  Probe *_probe;
};
#endif
