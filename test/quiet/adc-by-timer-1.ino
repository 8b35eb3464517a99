// Conversions at 8 kHz, started by timer 1's compare match B; the lamp on D3 follows the mean.
volatile unsigned int sum;
volatile byte count;

ISR(ADC_vect) {
  sum += ADC;
  count++;
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

void loop() {
  if (count >= 32) {
    noInterrupts();
    unsigned int s = sum;
    sum = 0;
    count = 0;
    interrupts();
    analogWrite(3, s >> 7);
  }
}
