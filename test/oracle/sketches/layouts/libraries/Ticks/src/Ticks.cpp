#include "Ticks.h"
namespace ticks {
Task task;
volatile uint16_t count;
}
ISR(TIMER2_COMPA_vect) {
  ticks::count++;
  if (ticks::task) ticks::task(ticks::count & 3);
}
