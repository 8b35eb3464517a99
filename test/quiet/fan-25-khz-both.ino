#define TOP_25K 319
void setup() {
  TCCR1A = (1 << COM1A1) | (1 << COM1B1) | (1 << WGM11);
  TCCR1B = (1 << WGM13) | (1 << WGM12) | (1 << CS10);
  ICR1 = TOP_25K;
  OCR1A = TOP_25K / 2;
  OCR1B = TOP_25K / 4;
  DDRB |= (1 << PB1) | (1 << PB2);
}
void loop() {}
