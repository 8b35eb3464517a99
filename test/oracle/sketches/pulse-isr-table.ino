// A pattern from a table.
const byte PATTERN[] = {1, 0, 1, 1, 0, 0, 0, 0};
volatile byte at = 0;

ISR(TIMER2_COMPA_vect) {
  digitalWrite(8, PATTERN[at]);
  at = (at + 1) & 7;
}

void setup() {
  pinMode(8, OUTPUT);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22) | _BV(CS21);
  OCR2A = 124;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
}
