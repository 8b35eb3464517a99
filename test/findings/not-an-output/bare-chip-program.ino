#include <avr/io.h>
int main(void) {
  TCCR2A = (1 << COM2B1) | (1 << WGM21) | (1 << WGM20);
//= finding not-an-output "Timer 2 drives OC2B, but D3 is an input, so nothing comes out"
//= fix "Make PD3 an output"
  TCCR2B = (1 << CS22);
  OCR2B = 100;
  while (1) {
  }
}
