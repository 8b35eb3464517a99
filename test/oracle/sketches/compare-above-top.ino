// Duty from the old scale of 255, TOP is 199.
void setup() {
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = 199;
  OCR1B = 255;
}
void loop() {}
