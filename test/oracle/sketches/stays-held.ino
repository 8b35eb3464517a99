void setup() {
  pinMode(9, OUTPUT);
  analogWrite(9, 100);
  GTCCR = _BV(TSM) | _BV(PSRSYNC);
}
void loop() {}
