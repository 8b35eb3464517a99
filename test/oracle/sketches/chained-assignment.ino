void setup() {
  DDRB |= B00000110;
  TCCR1A = TCCR1B = 0;
  OCR1A = OCR1B = 220;
  ICR1 = 440;
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
}
void loop() {}
