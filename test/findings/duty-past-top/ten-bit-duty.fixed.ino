void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = 320;
}
void loop() { OCR1A = map(analogRead(A0), 0, 1023, 0, 1023) * (unsigned long)ICR1 / 1023; delay(5); }
