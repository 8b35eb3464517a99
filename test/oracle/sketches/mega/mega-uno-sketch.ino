// Written for the small board: OC1A is pin 11 here, not 9.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 320;
  OCR1A = 100;
}
void loop() {}
