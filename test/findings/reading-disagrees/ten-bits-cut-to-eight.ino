// WGM11 missing: the mode's TOP is 255, and of the 700 only its low byte is kept.
// bench reads D9: 62.5 kHz
//=^^^^^^^^^^^^^^^^^^^^^^^^ finding reading-disagrees "fast PWM, TOP 0xFF in place of fast PWM, TOP 0x3FF (WGM11 missing) would give 62.5 kHz"
void setup() {
    pinMode(9, OUTPUT);
    TCCR1A = _BV(COM1A1) | _BV(WGM11) | _BV(WGM10);
    TCCR1B = _BV(WGM12) | _BV(CS10);
    OCR1A = 700;
}
void loop() {}
