const bool quick = true;
void setup() {
  pinMode(5, OUTPUT);
  if (quick) TCCR0B = _BV(CS01) | _BV(CS00);
}
void loop() { analogWrite(5, 10); delay(100); }
