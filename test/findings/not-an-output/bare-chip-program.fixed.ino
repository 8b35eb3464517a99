#include <avr/io.h>
int main(void) {
  TCCR2A = (1 << COM2B1) | (1 << WGM21) | (1 << WGM20);
  DDRD |= (1 << PD3);
  TCCR2B = (1 << CS22);
  OCR2B = 100;
  while (1) {
  }
}
