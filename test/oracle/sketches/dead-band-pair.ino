// Two outputs against each other, a gap between them.
#define TOP 400
#define GAP 12
void setup() {
  DDRB |= _BV(1) | _BV(2);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(COM1B0);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = TOP;
  OCR1A = TOP / 2 - GAP;
  OCR1B = TOP / 2 + GAP;
}
void loop() {}
