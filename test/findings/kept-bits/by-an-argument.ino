void setClock(byte bits) { TCCR1B |= bits; }
//=                        ^^^^^^^^^^^^^^ finding kept-bits "TCCR1B still holds CS11 and CS10, left by the core's init, so the timer counts pulses at pin PD5 and stands st"
//= fix "Clear CS1 before setting it"
void setup() { pinMode(9, OUTPUT); setClock(_BV(CS12)); }
void loop() { analogWrite(9, 50); }
