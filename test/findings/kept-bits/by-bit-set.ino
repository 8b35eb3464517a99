void setup() { pinMode(11, OUTPUT); bitSet(TCCR2B, CS20); }
//=                                 ^^^^^^^^^^^^^^^^^^^^ finding kept-bits "TCCR2B still holds CS22, left by the core's init, so this gives prescaler 128 and not prescaler 1"
//= fix "Clear CS2 before setting it"
void loop() { analogWrite(11, 128); }
