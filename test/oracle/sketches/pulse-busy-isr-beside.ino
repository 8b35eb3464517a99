// A routine of timer 2 takes its share of the time.
volatile unsigned int ticks = 0;

ISR(TIMER2_COMPA_vect) {
  ticks++;
}

void setup() {
  pinMode(8, OUTPUT);
  TCCR2A = _BV(WGM21);
  TCCR2B = _BV(CS21);
  OCR2A = 99;
  TIMSK2 = _BV(OCIE2A);
}

void loop() {
  digitalWrite(8, HIGH);
  delayMicroseconds(500);
  digitalWrite(8, LOW);
  delayMicroseconds(500);
}
