void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding no-top-yet "TOP from ICR1" "D9"
    OCR1A = 200;
}
void loop() {}
