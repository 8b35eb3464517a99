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
//= signal D8 running: high
//= signal D8 running: low
//= signal D8 running: pulse 4553.22..5033.03 Hz, duty 22.93..28.91 %
