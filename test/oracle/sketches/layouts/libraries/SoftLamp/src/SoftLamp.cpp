#include "SoftLamp.h"

uint8_t SoftLamp::count = 0;

void SoftLamp::begin(unsigned long hz) {
  pinMode(_pin, OUTPUT);
  _top = timerOneTop(hz);
  timerOneStart(_top);
}

void SoftLamp::set(uint8_t percent) { timerOneDuty(_pin, (uint32_t)_top * curve(percent) / 100); }
