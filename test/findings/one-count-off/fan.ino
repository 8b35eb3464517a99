// wants D9: 25 kHz +-1 %
void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(CS10);
    ICR1 = 319;
//= ^^^^^^^^^^ finding one-count-off "ICR1 = 319 is one count off for D9: 320 gives exactly 25 kHz"
    OCR1A = 100;
}
void loop() {}
