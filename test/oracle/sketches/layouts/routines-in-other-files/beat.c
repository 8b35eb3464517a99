#include "beat.h"
#include <avr/interrupt.h>
volatile uint8_t beats;
ISR(TIMER1_COMPA_vect) { beats++; }
void beat_start(uint16_t top)
{
  TCCR1A = 0;
  TCCR1B = 1 << WGM12 | 1 << CS11 | 1 << CS10;
  OCR1A = top;
  TIMSK1 |= 1 << OCIE1A;
}
