// analogWrite on top of a CTC setup: clear on match instead of a pulse.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 100;
  analogWrite(9, 50);
}
void loop() {}
