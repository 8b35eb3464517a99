// Either pair fits: the values are never mixed.
bool fast;
void setup() {
    pinMode(9, OUTPUT);
    pinMode(2, INPUT_PULLUP);
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
}
void loop() {
    fast = digitalRead(2);
    if (fast) {
        ICR1 = 99;
        OCR1A = 50;
    } else {
        ICR1 = 999;
        OCR1A = 500;
    }
    delay(500);
}
