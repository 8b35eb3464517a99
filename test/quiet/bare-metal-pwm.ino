#include <avr/io.h>
#include <avr/interrupt.h>
#include <util/delay.h>

static void pwm_init(void) {
  DDRD |= (1 << DDD6) | (1 << DDD5);
  OCR0A = 0;
  OCR0B = 128;
  TCCR0A = (1 << COM0A1) | (1 << COM0B1) | (1 << WGM00);
  TCCR0B = (1 << CS01);
}

static uint16_t adc_read(uint8_t ch) {
  ADMUX = (1 << REFS0) | (ch & 7);
  ADCSRA |= (1 << ADSC);
  while (ADCSRA & (1 << ADSC))
    ;
  return ADC;
}

int main(void) {
  pwm_init();
  ADCSRA = (1 << ADEN) | (1 << ADPS2) | (1 << ADPS1) | (1 << ADPS0);
  for (;;) {
    OCR0A = adc_read(0) >> 2;
    _delay_ms(5);
  }
}
