// bench reads D9: 245.1 Hz
//=^^^^^^^^^^^^^^^^^^^^^^^^ finding reading-disagrees "D9 reads 245.1 Hz, but 490.196 Hz is predicted" "8 MHz"
void setup() {}
void loop() { analogWrite(9, 60); }
