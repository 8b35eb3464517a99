ISR(TIMER1_COMPA_vect) {}
void setup() {
    OCR1A = 7999;
//= ^^^^^^^^^^^^ finding mode-ignores-write "OCR1A = 7999 is stored as 63"
    TCCR1A = 0;
    TCCR1B = _BV(WGM12) | _BV(CS10);
    TIMSK1 = _BV(OCIE1A);
}
void loop() {}
