// A program of its own: no core, no interrupts.
#include <avr/io.h>
#include <util/delay.h>

int main(void) {
  DDRB |= _BV(PB5);
  for (;;) {
    PORTB |= _BV(PB5);
    _delay_us(40);
    PORTB &= ~_BV(PB5);
    _delay_us(60);
  }
}
