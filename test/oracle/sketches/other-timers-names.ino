// Bits named for timer 1 used on timer 0: same places, other meaning.
void setup() {
  pinMode(5, OUTPUT);
  TCCR0A = _BV(COM1B1) | _BV(WGM11) | _BV(WGM10);
  TCCR0B = _BV(WGM12) | _BV(CS11);
  OCR0A = 79;
  OCR0B = 19;
}
void loop() {}
