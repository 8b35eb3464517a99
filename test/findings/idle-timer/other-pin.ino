void setup() {
  pinMode(5, OUTPUT);
  TCCR2B = (TCCR2B & 0xF8) | 1;
//= finding idle-timer "Timer 2 is set up here, but none of its pins, interrupts or flags is used"
//= fix "Take out this setting of timer 2"
//=                          ^ finding bare-number "0x01 sets CS20 of TCCR2B (prescaler 1)"
}
void loop() { analogWrite(5, 33); }
