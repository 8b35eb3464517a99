// Two readings of one setting share its slip: they do not make the clock slow.
// bench reads D3: 484.3 Hz
//=^^^^^^^^^^^^^^^^^^^^^^^^ finding reading-disagrees "490.196 Hz is predicted"
// bench reads D11: 484.3 Hz
//=^^^^^^^^^^^^^^^^^^^^^^^^^ finding reading-disagrees
void setup() {}
void loop() { analogWrite(3, 60); analogWrite(11, 60); }
