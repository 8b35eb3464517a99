void setup() {
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    pinMode(9, OUTPUT);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    ICR1 = 400;
    OCR1A = 200;
}
void loop() {}
