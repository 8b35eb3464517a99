// wants D9: 2 kHz
void setup() { pinMode(9, OUTPUT); TCCR1A = _BV(COM1A1) | _BV(WGM11); ICR1 = 1000; OCR1A = 500; }
void loop() {
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  delay(100);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  delay(100);
}
