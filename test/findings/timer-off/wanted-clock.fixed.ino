// wants D10: 3.125 kHz +-1 %
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = 639;
  OCR1B = 64;
}
void loop() {}
