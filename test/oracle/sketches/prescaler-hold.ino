// Both timers started together: TSM holds the prescalers, then lets go.
void setup() {
  GTCCR = _BV(TSM) | _BV(PSRASY) | _BV(PSRSYNC);
  TCCR1A = _BV(COM1A1) | _BV(WGM10);
  TCCR1B = _BV(WGM12) | _BV(CS11);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS21);
  TCNT1 = 0;
  TCNT2 = 128;
  OCR1A = 127;
  OCR2B = 127;
  pinMode(9, OUTPUT);
  pinMode(3, OUTPUT);
  GTCCR = 0;
}
void loop() {}
