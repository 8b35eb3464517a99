// A driver in C as drivers are: register aliases in a header, function-like macros, a union, designated initialisers.
#include "driver.h"
void setup() {
  driver_init(&driver_default);
  driver_set(DRIVER_B, 0x0140);
}
void loop() { delay(5); }
