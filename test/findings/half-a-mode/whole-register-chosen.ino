void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(WGM10);
    TCCR1B = _BV(WGM12) | _BV(CS10);
    TIMSK1 = _BV(TOIE1);
}
ISR(TIMER1_OVF_vect) {}
void loop() { OCR1A = 300; delay(10); }
//=           ^^^^^^^^^^^ finding mode-ignores-write "OCR1A = 300 is stored as 44"
