#include <Arduino.h>
// Compiled, never called.
void leaveTheTimerAlone() { TCCR1B = 0; }
