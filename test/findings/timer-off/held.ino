void setup() {
  GTCCR = _BV(TSM) | _BV(PSRSYNC);
//= finding timer-off "Timer 1 is held in reset (TSM), so D9 stands still"
//= fix "Let the prescaler go: GTCCR = 0"
  pinMode(9, OUTPUT);
}
void loop() { analogWrite(9, 40); }
