// Beacon: 1 Hz square wave without any code in loop.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS12);
  OCR1A = 31249;
}
void loop() {}
