void setup() { pinMode(6, OUTPUT); TCCR0B = 0x07; }
//=                                ^^^^^^^^^^^^^ finding time-base-moved "Timer 0 is the core's clock, and this changes it: it counts pulses at D4, and without them delay never ends, m"
//= fix "Leave timer 0 as the core set it"
//=                                         ^^^^ finding bare-number "0x07 sets CS02, CS01 and CS00 of TCCR0B (clock from pin PD4 (rising edges))"
void loop() { analogWrite(6, 20); delay(100); }
