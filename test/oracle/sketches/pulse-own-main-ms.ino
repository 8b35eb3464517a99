// A slow blinker without the core.
#include <avr/io.h>
#include <util/delay.h>

int main(void) {
  DDRC = 1;
  while (1) {
    PINC = 1;
    _delay_ms(2.5);
  }
}
