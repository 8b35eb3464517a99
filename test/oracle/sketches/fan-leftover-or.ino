// Wanted 31 kHz on pin 9, ORs the prescaler onto what init left.
void setup() {
  pinMode(9, OUTPUT);
  TCCR1B |= _BV(CS10);
  analogWrite(9, 90);
}
void loop() {}
