// Relies on the core's WGM10: fast PWM, 8 bits, 62.5 kHz.
void setup() {
    TCCR1B = _BV(WGM12) | _BV(CS10);
}
void loop() {
    analogWrite(9, 60);
    analogWrite(10, 200);
}
