void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A0);
    TCCR1B = _BV(WGM12) | _BV(CS11);
}
void loop() {
    for (uint16_t top = 1000; top < 3000; top += 10) {
        OCR1A = top;
//=     ^^^^^ hover "D9: 334.336..999.001 Hz, duty 50 %"
        delay(2);
    }
}
