void setup() {
    pinMode(10, OUTPUT);
    TCCR1A = _BV(COM1B0);
    TCCR1B = _BV(WGM12) | _BV(CS11);
    OCR1A = 499;
    OCR1B = 1000;
//= ^^^^^^^^^^^^ finding never-matches "OCR1B = 1000 lies above TOP 499" "D10 never switches"
}
void loop() {}
