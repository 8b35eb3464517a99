void setup() {
  pinMode(3, OUTPUT);
  TCCR2B &= ~(_BV(CS22));
//= finding timer-off "Timer 2 has no clock selected, so D3 stands still"
}
void loop() { analogWrite(3, 60); }
