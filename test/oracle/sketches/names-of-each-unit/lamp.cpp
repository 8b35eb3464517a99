#include "tally.h"

namespace {
struct State {
  uint16_t high;
  uint16_t top;
  uint8_t steps;
};
enum { FAST, SLOW = 4, OFF };
State state = {900, 1999, OFF};
void apply() { OCR1B = state.high + tally + state.steps; }
}

static uint8_t duty = 200;
const uint8_t SHARE = 50;
static void fade() { state.high -= duty; }

void startLamp() {
  DDRB |= _BV(2);
  TCCR1A |= _BV(COM1B1);
  fade();
  state.high = SHARE;
  apply();
}
