#include <avr/io.h>
#include <util/delay.h>
void blink_setup(void);
int main(void)
{
  blink_setup();
  for (;;) {
    OCR0B = 40;
    _delay_ms(3);
    OCR0B = 90;
    _delay_ms(3);
  }
}
