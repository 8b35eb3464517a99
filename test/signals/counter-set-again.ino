// Beacons kept in step with something outside: whoever sets a counter while it counts cuts its periods short.
void setup() {
  pinMode(9, OUTPUT); pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A0);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  OCR1A = 999;
  pinMode(11, OUTPUT); pinMode(2, INPUT_PULLUP);
  TCCR2A = _BV(COM2A0) | _BV(WGM21);
  TCCR2B = _BV(CS22);
  OCR2A = 124;
  EICRA = _BV(ISC01);
  EIMSK = _BV(INT0);
}
ISR(INT0_vect) { TCNT2 = 0; }
void loop() {
  TCNT1 = 0;
  delayMicroseconds(200);
}
//= signal D9 running: pulse 1000 Hz, duty 50 %
//= signal D9 running: unknown because "the sketch sets TCNT1 while it counts: periods end early or run on"
//= signal D11 running: pulse 1000 Hz, duty 50 %
//= signal D11 running: unknown because "the sketch sets TCNT2 while it counts: periods end early or run on"
