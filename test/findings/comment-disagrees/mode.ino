void setup() {
    pinMode(9, OUTPUT);
    ICR1 = 400;
    OCR1A = 100;
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(CS10);  // fast PWM, no prescaler
//=                                   ^^^^^^^^^^^^^^^^^^^^^^^^^ finding comment-disagrees "phase-correct PWM with TOP ICR1"
}
void loop() {}
