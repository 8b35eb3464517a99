// The main program sets how far the routine counts.
volatile byte limit = 10;
volatile byte count = 0;

ISR(TIMER2_COMPA_vect) {
  if (++count >= limit) {
    count = 0;
    PIND = _BV(PIND7);
  }
}

void setup() {
  DDRD |= _BV(DDD7);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 249;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
  limit = 10;
  delay(200);
  limit = 5;
  delay(200);
}
