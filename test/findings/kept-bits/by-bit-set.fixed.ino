void setup() { pinMode(11, OUTPUT); TCCR2B = (TCCR2B & ~(bit(CS22) | bit(CS21) | bit(CS20))) | bit(CS20); }
void loop() { analogWrite(11, 128); }
