void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);  // 3125 Hz
  ICR1 = 639;
  OCR1A = 300;
}
void loop() {}
