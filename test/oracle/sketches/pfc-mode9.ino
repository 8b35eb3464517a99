void setup() {
  DDRB |= 0x06;
  TCCR1A = _BV(COM1A0) | _BV(COM1B1) | _BV(WGM10);
  TCCR1B = _BV(WGM13) | _BV(CS11);
  OCR1A = 1000;
  OCR1B = 250;
}
void loop() {}
