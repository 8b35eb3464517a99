// Two states of two registers each, never a mix.
void setup() {
  pinMode(4, INPUT);
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
}
void loop() {
  if (PIND & _BV(PD4)) {
    ICR1 = 800;
    OCR1A = 200;
  } else {
    ICR1 = 1600;
    OCR1A = 1200;
  }
  delay(10);
}
