// for pulsewright: board nano
// wants D9: 20 kHz, reach 5..95 %
#define MOTOR 9

void startPwm() {
    TCCR1B = 0;
    TCCR1A = 0;
    TCNT1 = 0;
    OCR1A = 0;
    TCCR1B = _BV(WGM13) | _BV(WGM12);
    ICR1 = 799;
    TCCR1A = _BV(COM1A1) | _BV(WGM11);
    TCCR1B |= _BV(CS10);  // 20 kHz on D9: fast PWM, prescaler 1, TOP 799
}

void setup()
{
    pinMode(MOTOR, OUTPUT);
    startPwm();
}

void loop()
{
    int v = analogRead(A1);
    OCR1A = map(v >> 2, 0, 255, 0, 799);
}
