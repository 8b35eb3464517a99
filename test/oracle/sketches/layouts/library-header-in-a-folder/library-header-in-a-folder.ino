// A library's header in a folder of its own, included with that folder's name; another header beside it.
#include <Ramps.h>
#include <steps/ramp.h>
Ramp ramp(3);
void setup() { ramp.begin(); }
void loop() {
  ramp.to(120);
  delay(5);
}
