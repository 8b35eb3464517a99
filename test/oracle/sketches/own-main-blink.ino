// No core: own main, busy delay.
#include <avr/io.h>
#include <util/delay.h>
int main(void) {
  DDRB |= _BV(PB1);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11) | _BV(CS10);
  OCR1A = 1249;
  while (1) {
    _delay_ms(5);
  }
}
