void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    ICR1 = 63;
    OCR1A = 0;
//= ^^^^^^^^^ finding spike-at-zero "one tick in 64: 62.5 ns high, 1.56 %, at D9"
}
void loop() {}
