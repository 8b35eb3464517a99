void setup() {
    pinMode(9, OUTPUT);
    TCCR1B = _BV(CS11);  // 31 kHz on 9 and 10
//=                      ^^^^^^^^^^^^^^^^^^^^^ finding comment-disagrees "31 kHz" "3921.57 Hz"
    TCCR2B = _BV(CS20);  // 31.4 kHz on pins 3 and 11
}
void loop() { analogWrite(9, 60); analogWrite(3, 60); }
