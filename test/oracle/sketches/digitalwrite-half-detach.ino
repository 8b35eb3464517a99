// digitalWrite clears only the upper COM bit: a toggling output goes on.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 999;
  digitalWrite(9, LOW);
}
void loop() {}
