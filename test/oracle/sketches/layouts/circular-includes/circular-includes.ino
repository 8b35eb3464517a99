// Two headers that include each other, with guards; each class knows the other by name.
#include "fan.h"
#include "probe.h"
Fan fan;
Probe probe(fan);
void setup() {
  fan.begin(&probe);
  probe.report(31);
}
void loop() { delay(5); }
