void setup() { pinMode(9, OUTPUT); }
void loop() { analogWrite(9, 64); }
//=                       ^ hover "D9: 490.196 Hz, duty 25.1 %" "PB1, OC1A of timer 1, shared with D10"
