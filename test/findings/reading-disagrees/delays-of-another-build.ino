// The timers agree on the clock; what delay times is told by the build alone.
// bench reads D9: 490.2 Hz
// bench reads D3: 490.3 Hz
// bench reads D4: 100.0 Hz
//=^^^^^^^^^^^^^^^^^^^^^^^^ finding reading-disagrees "a build for 8 MHz on this board of 16 MHz would give 99.98"
void setup() { pinMode(4, OUTPUT); }
void loop() { analogWrite(9, 60); analogWrite(3, 60); digitalWrite(4, HIGH); delay(10); digitalWrite(4, LOW); delay(10); }
