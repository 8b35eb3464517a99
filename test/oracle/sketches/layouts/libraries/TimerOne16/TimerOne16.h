// The flat layout: everything in one folder, and what it needs in utility.
#ifndef TimerOne16_h
#define TimerOne16_h
#include <inttypes.h>
uint16_t timerOneTop(unsigned long hz);
void timerOneStart(uint16_t top);
void timerOneDuty(uint8_t pin, uint16_t high);
#endif
