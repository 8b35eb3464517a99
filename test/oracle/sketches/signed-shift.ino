void setup() {
  pinMode(9, OUTPUT);
  int half = -400 >> 3;
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 300;
  OCR1A = 200 + half;
}
void loop() {}
