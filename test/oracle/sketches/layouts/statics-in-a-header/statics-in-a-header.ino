// Tables and helpers that a header defines static: each file has its own, as written.
#include "gamma.h"
void other();
void setup() {
  gammaShift = 2;
  other();
  analogWrite(3, corrected(2));
}
void loop() { delay(5); }
