void setup() {
    OCR2A = 199;
    TCCR2A = _BV(WGM21) | _BV(WGM20);
    TCCR2B = _BV(CS21);
}
void loop() {
    analogWrite(3, 50);
    delay(10);
    analogWrite(11, 99);
    delay(10);
}
