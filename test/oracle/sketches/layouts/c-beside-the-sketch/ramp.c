#include <avr/io.h>
#include "ramp.h"

const unsigned char RAMP_START = 12;
static uint8_t end;
static uint8_t now;
static void put(uint8_t value) { OCR2A = value; }

void ramp_begin(uint8_t start)
{
  TCCR2A = (1 << COM2A1) | (1 << WGM21) | (1 << WGM20);
  TCCR2B = 1 << CS22;
  now = start;
  put(now + sizeof 'a');
}
void ramp_to(uint8_t value) { end = value; }
void ramp_step(void) { if (now < end) put(now += 8); else put(end); }
int old_style(int first, int second)
{
  return first * second + offset_of_lamp();
}
