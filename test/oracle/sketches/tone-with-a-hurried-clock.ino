// Timer 0 overflows so often that tone's own routine comes late: single pulses are not what the timer's beat says.
void setup() {
  TCCR0B = _BV(WGM02) | 2;
  tone(8, 440);
}
void loop() {}
