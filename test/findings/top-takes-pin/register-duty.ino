void setup() {
    pinMode(9, OUTPUT);
    pinMode(10, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11) | _BV(WGM10);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    OCR1B = 20;
}
void loop() {
    OCR1A = 100 + analogRead(A0);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding top-takes-pin "D9 stays at a constant level"
}
