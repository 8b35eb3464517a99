// Prescaler and TOP belong together, whichever way the input decides.
void setup() { pinMode(9, OUTPUT); TCCR1A = _BV(COM1A0); TCCR1B = _BV(WGM12) | _BV(CS11); OCR1A = 999; }
void loop() {
  if (analogRead(A0) > 512) { TCCR1B = _BV(WGM12) | _BV(CS11); OCR1A = 999; }
  else { TCCR1B = _BV(WGM12) | _BV(CS10); OCR1A = 15999; }
  delay(10);
}
