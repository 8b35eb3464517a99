const byte fan = 9;
void setup() {
    pinMode(fan, OUTPUT);
    TCCR1A = _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
    ICR1 = 79;
}
void loop() {
    analogWrite(fan, map(analogRead(A0), 0, 1023, 0, ICR1));
}
