void setup() {
    pinMode(9, OUTPUT);
    ICR1 = 400;
//= ^^^^^^^^^^ finding mode-ignores-write "ICR1"
    TCCR1A = _BV(COM1A1) | _BV(WGM10);
    TCCR1B = _BV(WGM12) | _BV(CS10);
    OCR1A = 100;
}
void loop() {}
