void setup() {
  DDRL = _BV(PL4);
  TCCR5A = (1 << COM5B1) | (1 << WGM51);
  TCCR5B = (1 << WGM53) | (1 << CS50);
  ICR5 = 1000;
  OCR5B = 1200;
}
void loop() {}
