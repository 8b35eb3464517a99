ISR(ADC_vect) { OCR2B = ADCH; }
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS20);
  ADMUX = _BV(REFS0) | _BV(ADLAR);
  ADCSRB = 0;
  ADCSRA = _BV(ADEN) | _BV(ADSC) | _BV(ADATE) | _BV(ADIE) | 7;
}
void loop() { delay(20); }
