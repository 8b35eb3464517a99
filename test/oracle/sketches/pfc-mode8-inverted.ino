void setup() {
  DDRB |= 0x06;
  TCCR1A = _BV(COM1A1) | _BV(COM1A0) | _BV(COM1B1);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 800;
  OCR1A = 200;
  OCR1B = 200;
}
void loop() {}
