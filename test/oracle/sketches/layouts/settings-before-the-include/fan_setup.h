#ifndef FAN_TOP
#define FAN_TOP 799
#endif
#include <Arduino.h>
static inline void fanSetup() {
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = FAN_TOP;
}
enum { FAN_TOP_HERE = FAN_TOP };
#define FAN_AT(x) ((FAN_TOP_HERE + 1L) * (x) / 100)
int fanTopElsewhere();
