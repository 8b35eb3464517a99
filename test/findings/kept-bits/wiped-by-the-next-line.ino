void setup() {
    pinMode(9, OUTPUT);
    ICR1 = 400;
    TCCR1A = _BV(COM1A1);
    TCCR1A = _BV(WGM11);
//= ^^^^^^^^^^^^^^^^^^^ finding kept-bits "clears COM1A1"
//= fix "Use |= instead of ="
    TCCR1B = _BV(WGM13) | _BV(CS10);
    OCR1A = 100;
//= ^^^^^^^^^^^ finding not-connected
}
void loop() {}
