#include <avr/io.h>
#include <avr/interrupt.h>

volatile uint32_t ticks;

ISR(TIMER0_COMPA_vect) { ticks++; }

static uint32_t now(void) {
  uint32_t t;
  uint8_t s = SREG;
  cli();
  t = ticks;
  SREG = s;
  return t;
}

int main(void) {
  TCCR0A = (1 << WGM01);
  OCR0A = 249;
  TIMSK0 = (1 << OCIE0A);
  TCCR0B = (1 << CS01) | (1 << CS00);
  DDRB = (1 << PB5);
  sei();
  uint32_t last = 0;
  while (1) {
    if (now() - last >= 500) {
      last += 500;
      PINB = (1 << PB5);
    }
  }
}
