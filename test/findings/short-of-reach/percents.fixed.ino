// wants D9: 490 Hz, reach 5..95 %
void setup() { pinMode(9, OUTPUT); }
void loop() { int p = map(analogRead(A0), 0, 1023, 0, 100); analogWrite(9, p * 255UL / 100); delay(20); }
