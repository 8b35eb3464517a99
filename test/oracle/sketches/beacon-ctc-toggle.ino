// Beacon: 1 Hz square wave on pin 9, no code in loop.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS12) | _BV(CS10);
  OCR1A = 7811;
}
void loop() { }
