union Word { uint16_t whole; uint8_t half[2]; };
Word w;
void setup() {
  pinMode(9, OUTPUT);
  w.half[0] = 0x20;
  w.half[1] = 0x03;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = w.whole;
  OCR1A = w.half[0];
}
void loop() {}
