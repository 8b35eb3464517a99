void setup() {
    pinMode(9, OUTPUT);
    ICR1 = 400;
    TCCR1A = _BV(COM1A1);
    TCCR1A |= _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(CS10);
    OCR1A = 100;
}
void loop() {}
