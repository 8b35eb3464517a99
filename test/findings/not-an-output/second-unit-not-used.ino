// Copied with both outputs connected; only pin 9 is wired.
void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    ICR1 = 400;
    OCR1A = 200;
}
void loop() {}
