// Without the core's init |= starts from zero.
#include <avr/io.h>
int main(void)
{
  DDRD |= 1<<3;
  TCCR2A |= 1<<COM2B1 | 1<<WGM20;
  TCCR2B |= 1<<CS20;
  OCR2B = 77;
  while (1);
}
