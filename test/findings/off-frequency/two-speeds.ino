// wants D9: 490 Hz +-2 %
void setup() { pinMode(2, INPUT_PULLUP); }
void loop() {
    if (digitalRead(2)) {
        TCCR1B = _BV(CS11) | _BV(CS10);
    } else {
        TCCR1B = _BV(CS12);
//=     ^^^^^^^^^^^^^^^^^^ finding off-frequency "122.549 Hz"
    }
    analogWrite(9, 60);
    delay(100);
}
