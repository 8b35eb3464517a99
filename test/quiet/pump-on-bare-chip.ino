// for pulsewright: board mega
// A pump on PB5 (OC1A, D11 of a mega) by a program of its own, duty in tenths of a percent.
#include <avr/io.h>
#include <util/delay.h>

#define TOP 799U

static void duty(uint16_t permille) { OCR1A = (uint32_t)TOP * permille / 1000; }

int main(void) {
  DDRB |= (1 << PB5);
  ICR1 = TOP;
  OCR1A = 0;
  TCCR1A = (1 << COM1A1) | (1 << WGM11);
  TCCR1B = (1 << WGM13) | (1 << CS10);
  for (;;) {
    for (uint16_t p = 0; p <= 1000; p += 50) {
      duty(p);
      _delay_ms(100);
    }
  }
}
