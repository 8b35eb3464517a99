void setup() {
  GTCCR = _BV(TSM) | _BV(PSRSYNC);
  GTCCR = 0;
  pinMode(9, OUTPUT);
}
void loop() { analogWrite(9, 40); }
