void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM12);
//=                                         ^^^^^ finding wrong-register-bit "WGM12 is a bit of TCCR1B; in TCCR1A bit 3 is reserved"
    TCCR1B = _BV(WGM13) | _BV(CS10);
    ICR1 = 400;
    OCR1A = 100;
}
void loop() {}
