unsigned long frequency = 38000;
void setup() {
  DDRD |= _BV(PD3);
  uint32_t top = (F_CPU + frequency) / (2 * frequency);
  TCCR2A = _BV(WGM20) | _BV(COM2B1);
  TCCR2B = _BV(WGM22) | _BV(CS20);
  OCR2A = top;
  OCR2B = top / 3;
}
void loop() {}
