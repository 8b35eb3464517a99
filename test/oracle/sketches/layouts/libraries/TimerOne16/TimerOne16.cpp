#include <avr/io.h>
#include "TimerOne16.h"
#include "utility/channel.h"

uint16_t timerOneTop(unsigned long hz) { return F_CPU / 8 / hz - 1; }
void timerOneStart(uint16_t top) {
  TCCR1A = _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = top;
}
void timerOneDuty(uint8_t pin, uint16_t high) {
  const struct channel *found = channel_of(pin);
  if (!found) return;
  TCCR1A |= found->bits;
  *found->compare = high;
}
