void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    ICR1 = 16000 * 100 / 5000;
//=        ^^^^^^^^^^^ finding value-does-not-fit "16000 * 100 is 1600000, too large for a 16-bit int" "27136"
    OCR1A = 3;
}
void loop() {}
