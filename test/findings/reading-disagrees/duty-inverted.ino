// bench reads D3: 490 Hz, duty 76.5 %
//=^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding reading-disagrees "490.196 Hz, duty 23.5 % is predicted" "output inverted in place of not inverted (COM2B1..0 = 11 for 10) would give 490.196 Hz"
// bench reads D3: duty 23.5 %
// bench reads D3: pulse 480 us
void setup() {}
void loop() { analogWrite(3, 60); }
