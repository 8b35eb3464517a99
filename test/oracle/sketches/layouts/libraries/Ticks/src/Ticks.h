#pragma once
#include <Arduino.h>
// Only headers; a template, and a routine that the library brings along.
namespace ticks {
typedef void (*Task)(uint8_t);
extern Task task;
extern volatile uint16_t count;
template <uint16_t EVERY> void start(Task what) {
  static_assert(EVERY > 0, "some time");
  task = what;
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22) | _BV(CS20);
  OCR2A = EVERY - 1;
  TIMSK2 = _BV(OCIE2A);
}
}
