void setup() {
    pinMode(3, OUTPUT);
    TCCR2B = (1 << WGM21) | (1 << CS20);
//=                ^^^^^ finding wrong-register-bit "in TCCR2B bit 1 is CS21 (now prescaler 32)"
//= fix "Name the bit that is really written: CS21"
}
void loop() { analogWrite(3, 60); }
