void setup() {
  DDRD |= _BV(PD2);
  TIMSK0 = 0;
}
void loop() {
  PORTD |= _BV(PD2);
  PORTD &= ~_BV(PD2);
}
