void setup() {
    TCCR2B |= (1 << WGM21);
//=                 ^^^^^ finding wrong-register-bit "in TCCR2B bit 1 is CS21 (now prescaler 256)"
}
void loop() { analogWrite(3, 60); }
