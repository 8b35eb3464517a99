// Pin 13 carries OC0A and OC1C together: the carrier is gated.
void setup() {
  pinMode(13, OUTPUT);
  TCCR0A |= _BV(COM0A1);
  OCR0A = 100;
  TCCR1A = _BV(COM1C1) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS10);
  OCR1C = 128;
}
void loop() {}
