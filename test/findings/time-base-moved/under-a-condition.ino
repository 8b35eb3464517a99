const bool quick = true;
void setup() {
  pinMode(5, OUTPUT);
  if (quick) TCCR0B = TCCR0B & 0xF8 | 0x02;
//=          ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding time-base-moved "Timer 0 is the core's clock, and this changes it: delay(1000) lasts 125 ms, millis() and micros() run 8 times "
//= fix "Leave timer 0 as the core set it"
//=                                   ^^^^ finding bare-number "0x02 sets CS01 of TCCR0B (prescaler 8)"
}
void loop() { analogWrite(5, 10); delay(100); }
