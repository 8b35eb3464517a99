#include "tally.h"

namespace {
struct State {
  uint8_t level;
  uint16_t top;
};
enum { OFF, SLOW = 40, FAST };
State state = {SLOW, 399};
void apply() {
  ICR1 = state.top;
  OCR1A = state.level + tally;
}
}

static uint8_t duty = 3;
const uint8_t SHARE = 7;

void startFan() {
  DDRB |= _BV(1);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  apply();
}

void runFan() {
  tally = 9;
  state.level = FAST + duty * SHARE;
  apply();
}
