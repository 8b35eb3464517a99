#include <avr/io.h>
void blink_setup(void)
{
  DDRD = 1 << 5;
  TCCR0A = 1 << COM0B1 | 1 << WGM01 | 1 << WGM00;
  TCCR0B = 1 << CS01;
}
