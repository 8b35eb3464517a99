void setup() {
  pinMode(6, OUTPUT);
  TCCR0B = (TCCR0B & 0b11111000) | 0x01;
//= finding time-base-moved "Timer 0 is the core's clock, and this changes it: delay(1000) lasts 15.63 ms, millis() and micros() run 64 tim"
//= fix "Leave timer 0 as the core set it"
//=                                ^^^^ finding bare-number "0x01 sets CS00 of TCCR0B (prescaler 1)"
}
void loop() {
  analogWrite(6, 200);
  delay(500);
  analogWrite(6, 20);
  delay(500);
}
