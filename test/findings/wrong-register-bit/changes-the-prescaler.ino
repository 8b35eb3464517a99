void setup() {
    TCCR2B |= (1 << WGM21);
//=                 ^^^^^ finding wrong-register-bit "in TCCR2B bit 1 is CS21 (now prescaler 256)"
//= refused fix "Name the bit that is really written: CS21"
}
void loop() { analogWrite(3, 60); }
