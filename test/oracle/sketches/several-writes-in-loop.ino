void setup() { DDRD |= 0x68; }
void loop() {
  TCCR0A = _BV(COM0B1) | _BV(WGM01) | _BV(WGM00);
  OCR0B = 33;
  TCCR2A = _BV(COM2B1) | _BV(WGM20);
  TCCR2B = _BV(CS21);
  OCR2B = 44;
}
