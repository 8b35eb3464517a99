// A square wave from delayMicroseconds, by ports.
void setup() {
  DDRB |= _BV(DDB0);
}

void loop() {
  PORTB |= _BV(PORTB0);
  delayMicroseconds(50);
  PORTB &= ~_BV(PORTB0);
  delayMicroseconds(150);
}
