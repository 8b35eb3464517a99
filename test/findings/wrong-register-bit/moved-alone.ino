void setup() {
    TCCR2B |= (1 << WGM21);
//=                 ^^^^^ finding wrong-register-bit "WGM21 is a bit of TCCR2A; in TCCR2B bit 1 is CS21 (now prescaler 256)"
//= fix "Write WGM21 to TCCR2A"
}
void loop() { analogWrite(3, 60); }
