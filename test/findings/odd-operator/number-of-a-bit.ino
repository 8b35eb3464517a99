void setup() {
  pinMode(11, OUTPUT);
  TCCR2B = CS20;
//= finding odd-operator "CS20 is the number of a bit, 0, not its mask 0x01: 0x04 → 0x00"
//= fix "Write _BV(CS20)"
//= finding timer-off "Timer 2 has no clock selected, so D11 stands still"
}
void loop() { analogWrite(11, 1); }
