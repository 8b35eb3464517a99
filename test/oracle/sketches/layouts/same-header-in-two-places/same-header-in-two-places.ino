// The sketch's own curve.h and the library's: each file means the one that stands beside it.
#include "curve.h"
#include <SoftLamp.h>
SoftLamp lamp(10);
void setup() {
  lamp.begin(500);
  lamp.set(curveOfSketch(70));
}
void loop() { delay(10); }
