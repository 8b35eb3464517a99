// Without the core.
#include <avr/interrupt.h>
#include <avr/io.h>

volatile uint8_t n;

ISR(TIMER0_OVF_vect) {
  if (++n == 61) {
    n = 0;
    PINB = _BV(PB5);
  }
}

int main(void) {
  DDRB |= _BV(PB5);
  TCCR0B = _BV(CS02) | _BV(CS00);
  TIMSK0 = _BV(TOIE0);
  sei();
  for (;;) {
  }
}
