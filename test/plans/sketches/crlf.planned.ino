// wants D9: 10 kHz
void setup() {
    TCCR1B = 0;
    TCCR1A = 0;
    TCNT1 = 0;
    OCR1A = 0;
    TCCR1B = _BV(WGM13) | _BV(WGM12);
    ICR1 = 1599;
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B |= _BV(CS10);  // 10 kHz on D9: fast PWM, prescaler 1, TOP 1599
    pinMode(9, OUTPUT);
}
void loop() {
    OCR1A = 187;
    OCR1A = 375;
}
