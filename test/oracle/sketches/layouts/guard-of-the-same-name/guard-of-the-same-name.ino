// Two headers with one guard: the second is left out, as the compiler does.
#include "first.h"
#include "second.h"
#ifndef LEVEL_OF_SECOND
#define LEVEL_OF_SECOND 33
#endif
void setup() { analogWrite(3, LEVEL_OF_FIRST + LEVEL_OF_SECOND); }
void loop() { delay(5); }
