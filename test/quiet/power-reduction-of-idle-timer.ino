void setup() {
  PRR |= _BV(PRTIM2) | _BV(PRTWI);
  pinMode(9, OUTPUT);
}
void loop() { analogWrite(9, 30); }
