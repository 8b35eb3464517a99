// Every tenth call turns the lamp over.
volatile byte count = 0;

ISR(TIMER2_COMPA_vect) {
  if (++count == 10) {
    count = 0;
    PIND = _BV(PIND4);
  }
}

void setup() {
  pinMode(4, OUTPUT);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 249;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
}
