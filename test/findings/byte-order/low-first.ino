void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    ICR1 = 1023;
    OCR1AL = 0x10;
//= ^^^^^^^^^^^^^ finding byte-order "OCR1AL is written before OCR1AH"
    OCR1AH = 0x01;
}
void loop() {}
