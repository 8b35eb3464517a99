// wants D9: 490 Hz, reach 5..95 %
//=^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding short-of-reach "D9: duty 0..39.22 % never gets up to 95 %"
//= fix "Scale the duty to 0..255 in 32-bit arithmetic"
void setup() { pinMode(9, OUTPUT); }
void loop() { int p = map(analogRead(A0), 0, 1023, 0, 100); analogWrite(9, p); delay(20); }
