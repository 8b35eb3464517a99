void setup() {
    TCCR1B = (TCCR1B & ~(_BV(CS12) | _BV(CS11) | _BV(CS10))) | _BV(CS12) | _BV(CS10);
}
void loop() { analogWrite(9, 60); }
