// Timer 1 compare B starts a conversion 8000 times a second.
volatile uint16_t sample;
ISR(ADC_vect) {
  sample = ADC;
  TIFR1 = _BV(OCF1B);
}
void setup() {
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS10);
  OCR1A = 1999;
  OCR1B = 1999;
  ADMUX = _BV(REFS0);
  ADCSRB = _BV(ADTS2) | _BV(ADTS0);
  ADCSRA = _BV(ADEN) | _BV(ADATE) | _BV(ADIE) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
}
void loop() {}
