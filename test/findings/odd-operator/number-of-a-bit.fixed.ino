void setup() {
  pinMode(11, OUTPUT);
  TCCR2B = _BV(CS20);
}
void loop() { analogWrite(11, 1); }
