// Three digits in turn.
volatile byte digit = 0;

ISR(TIMER2_COMPA_vect) {
  PORTC &= ~0x07;
  digit++;
  if (digit > 2) digit = 0;
  PORTC |= 1 << digit;
}

void setup() {
  DDRC |= 0x07;
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22) | _BV(CS20);
  OCR2A = 155;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
}
