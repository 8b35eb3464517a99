uint16_t sample(uint8_t channel) {
  ADMUX = (1 << REFS0) | (channel & 7);
  ADCSRA |= (1 << ADSC);
  while (ADCSRA & (1 << ADSC)) ;
  return ADC;
}
void setup() {
  ADCSRA = (1 << ADEN) | 7;
  pinMode(9, OUTPUT);
  TCCR1A = (1 << COM1A1) | (1 << WGM11) | (1 << WGM10);
  TCCR1B = (1 << CS11);
}
void loop() {
  OCR1A = sample(3);
}
