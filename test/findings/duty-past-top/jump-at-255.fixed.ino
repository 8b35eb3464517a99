void setup() {
  pinMode(9, OUTPUT);
  TCCR1A |= _BV(WGM11);
  TCCR1A |= _BV(COM1A1);
}
void loop() { OCR1A = analogRead(A0); }
