void setup() {
    pinMode(3, OUTPUT);
    TCCR2B = (TCCR2B | _BV(CS21)) & ~_BV(CS22);
}
void loop() { analogWrite(3, 60); }
