// for pulsewright: board nano
// wants D9: 20 kHz, reach 5..95 %
#define MOTOR 9

void startPwm() {
    // 31 kHz phase correct
    TCCR1A = _BV(WGM10) | _BV(COM1A1);
    TCCR1B = _BV(CS10);
}

void setup()
{
    pinMode(MOTOR, OUTPUT);
    startPwm();
}

void loop()
{
    int v = analogRead(A1);
    OCR1A = v >> 2;
}
