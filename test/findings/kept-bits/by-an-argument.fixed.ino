void setClock(byte bits) { TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | bits; }
void setup() { pinMode(9, OUTPUT); setClock(_BV(CS12)); }
void loop() { analogWrite(9, 50); }
