// The wait is shorter than one period: the compare value is still in its buffer when the mode changes.
void setup() {
  pinMode(5, OUTPUT);
  TCCR0A = _BV(COM0B1) | _BV(WGM01) | _BV(WGM00);
  OCR0B = 124;
  delayMicroseconds(100);
  TCCR0A = 0;
}
void loop() {}
