void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM10);
  OCR1A = 100;
}
void loop() {
  TCCR1B = _BV(WGM12) | _BV(CS11);
  delay(20);
  TCCR1B &= ~(_BV(CS12) | _BV(CS11) | _BV(CS10));
  delay(20);
}
