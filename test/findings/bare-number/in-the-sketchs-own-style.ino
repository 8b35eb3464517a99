void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = (1 << COM1A1) | (1 << WGM10);
    TCCR1B = TCCR1B & 0b11111000 | 2;
//=                                ^ finding bare-number "CS11 of TCCR1B (prescaler 8)"
//= fix "Write the bits by name"
    OCR1A = 77;
}
void loop() {}
