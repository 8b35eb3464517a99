void setup() {
    pinMode(9, OUTPUT);
    TCCR1A |= _BV(COM1A1) | _BV(WGM11);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding kept-bits "still holds WGM10" "fast PWM with TOP OCR1A" "fast PWM with TOP ICR1"
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    ICR1 = 639;
//= ^^^^^^^^^^ finding mode-ignores-write
    OCR1A = 100;
}
void loop() {}
